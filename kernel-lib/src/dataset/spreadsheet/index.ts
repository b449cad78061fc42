export { parseTestsSpreadsheet, readSheet } from "./read-spreadsheet";
export { sheetRows, type SheetRows } from "./sheet-rows";
export { ZipFault, zipEntries, ZIP_LIMITS, type ZipLimits } from "./zip-entries";
