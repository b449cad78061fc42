export {
  addressIn,
  addressOf,
  sheetNames,
  type Cell,
  type CellLook,
  type EntryRule,
  type Sheet,
} from "./sheet";
export { workbookBytes } from "./write-workbook";
export { zipArchive, type ArchiveFile } from "./zip";
