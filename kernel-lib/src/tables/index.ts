export { Table } from "./table";
export type { TableContent } from "./table-content";
export type { Align, CellValue, ColumnKind, TableColumn, TableRow } from "./column";
export { type DisplayBundle, type TableData, tableMediaType } from "./display-bundle";
export { roundedText } from "./rounding";
export { escapeHtml } from "./to-html";
export { neutralText } from "./workbook-file/neutral-text";
export { choicesTable } from "./choices-table";
export { factorTable, leftOutTable, steelPairTable } from "./factor-tables";
export { modeFactorTable, type ModeFactor } from "./mode-factor-table";
export { beforeAfterTable } from "./before-after-table";
export { modeComparisonTable } from "./mode-comparison-table";
export { ratioGroupTable } from "./ratio-group-table";
export { seriesComparisonTable } from "./series-comparison-table";
export { type TableText } from "./table-text";
export { unusedTable } from "./unused-tests-table";
export { modePowerTable, seriesPowerTable } from "./power-table";
export {
  outlierTable,
  seriesModelTable,
  seriesShiftTable,
  trendGapTable,
} from "./trend-model-tables";
export { atSizesTable, slopeDifferenceTable, slopeTable } from "./trend-tables";
export {
  alternativesTable,
  rulesOfGroupsTable,
  simpleRulesTable,
  standingTable,
} from "./proposal-tables";
export {
  addressIn,
  addressOf,
  sheetNames,
  workbookBytes,
  zipArchive,
  type ArchiveFile,
  type Cell,
  type CellLook,
  type EntryRule,
  type Sheet,
} from "./workbook-file";
export { docxTableParts } from "./to-docx";
export { tableSheets } from "./to-xlsx";
export { fixedPackageDates } from "./workbook-file/fixed-package";
export { checkKey, provisionTable, type ProvisionChecks } from "./provision-table";
export { codeCard, codeCards } from "./code-card";
export {
  designCapacityTable,
  designEmbedmentTable,
  designFactorTable,
} from "./design-comparison-tables";
export { elasticityTable, embedmentTable } from "./planning-tables";
export { alignOf, headingOf } from "./column";
export { columnRoom, pageText, sharedWidths } from "./column-widths";
export { missingMark, withSubscripts } from "./cell-text";
export { notesOf as tableNotes } from "./notes";
export { accountTable, notJudgedTable } from "./scope-tables";
export { cellTable } from "./cell-table";
export { distributionTable } from "./distribution-table";
export { testPlanTable } from "./test-plan-table";
export { leftOutGroupsTable } from "./left-out-groups-table";
export {
  indexTable,
  methodsTable,
  sensitivityTable,
  strengthReductionTable,
  testBasedTable,
} from "./reliability-tables";
export { calibrationTable, calibrationStepsTable } from "./calibration-tables";
export { changeEvidenceTable, changesTable } from "./change-tables";
export { betterGripTable, gripMarginTable, gripStrengthTable } from "./grip-tables";
export {
  capacityTable,
  governingTable,
  provisionUseTable,
  type GoverningCapacity,
  type ShownInputs,
} from "./prediction-tables";
export { calculationTable } from "./calculation-table";
export { governingLinesTable, heldWords, type HeldLine } from "./governing-table";
export {
  boundsTable,
  dataCheckTable,
  duplicateTable,
  excludedTable,
  fileTable,
  sourceTable,
} from "./audit-tables";
export { blankCellTable, missingInputTable } from "./blank-and-missing-tables";
export { betweenStudiesTable, betweenStudiesWords } from "./between-studies-table";
export { testRangesTable } from "./test-ranges-table";
export { readRows, readRowsTable, type ReadRows } from "./read-rows-table";
export { assumedTable, rejectedTable } from "./import-tables";
export {
  bondLawSummary,
  bondLawTable,
  driftTrialTable,
  reducedCurveTable,
  type FittedRecord,
} from "./curve-tables";
export { ballotClassRow, ballotTable } from "./ballot-table";
