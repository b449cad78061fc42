export { Table, type TableContent } from "./table";
export type { Align, CellValue, ColumnKind, TableColumn, TableRow } from "./column";
export { type DisplayBundle, type TableData, tableMediaType } from "./display-bundle";
export { roundedText } from "./rounding";
export { neutralText } from "./to-csv";
export { beforeAfterTable, factorTable, ratioGroupTable, seriesComparisonTable, type TableText, unusedTable } from "./comparison-tables";
