export * from "./schema/categories";
export { expectedInColumn, type Column, type ColumnKind } from "./schema/column";
export {
  declaredColumns,
  describePackage,
  parseDataPackage,
  tableField,
  type DataPackage,
  type PackageDescription,
  type PackageResource,
  type TableField,
} from "./reading/data-package";
export {
  countBySeverity,
  DatasetError,
  diagnostic,
  type Diagnostic,
  type DiagnosticPlace,
  type Severity,
} from "./diagnostics";
export { readDataset, readDatasets } from "./read-dataset";
export { type Dataset } from "./dataset";
export { sha256 } from "./reading/file-bytes";
export { parseTests, readTests, type TestsReading } from "./reading/read-tests";
export type { ReadingOptions } from "./reading/table-reading";
export type { RowSetAside } from "./reading/row-set-aside";
export { parseStudies, type StudiesReading } from "./reading/read-studies";
export { inventedAmong, STUDY_COLUMNS, type Invented, type Study } from "./schema/study";
export { suspiciousValues } from "./reading/suspicious-values";
export { TEST_COLUMNS, testColumn } from "./schema/test-columns";
export type {
  ExtraValue,
  NumberColumnName,
  RequiredColumnName,
  TestColumnName,
  TestRow,
  TestRowInput,
  TextColumnName,
} from "./schema/test-row";
export type { WordColumn } from "./table/word-column";
export type { ColumnStore, ExtraColumn, RowSource } from "./table/column-store";
export { TestTable } from "./table/test-table";
export { blankedBy, mayBeChanged, whatIfRows, type WhatIfValues } from "./table/what-if-rows";
export { testsAtStrength, type TestsAtStrength } from "./table/tests-at-strength";
export { csvText } from "./table/csv-text";
export { studiesCsv, testsCsv, writeDataset, type DatasetContents } from "./writing/write-dataset";
export {
  datasetSummary,
  diagnosticReport,
  rowsSetAsideReport,
  type ReportOptions,
} from "./checks/diagnostic-report";
export * from "./recipe";
export {
  changesReport,
  datasetChanges,
  hashChanges,
  type ChangedCell,
  type DatasetChanges,
} from "./checks/dataset-changes";
export {
  changesSinceManifest,
  parseDataManifest,
  type DataManifest,
  type ManifestChanges,
} from "./checks/data-manifest";
export {
  digestChanges,
  rowDigests,
  type CellChange,
  type DigestChanges,
  type FileRowDigests,
  type RowDigests,
} from "./checks/row-digests";
export { emptyDataset } from "./writing/empty-dataset";
export { CURVE_VALUES_FILE, parseCurveValues, type CurveValues } from "./reading/curve-values";
export { TO_CYLINDER, type StrengthRule } from "./table/cylinder-strength";
export {
  CONCRETE_STRENGTH_EXPONENTS,
  fitStrengthExponent,
  normaliseToStrength,
  type FittedExponent,
  type Normalised,
} from "./table/normalise";
export {
  normaliseTests,
  type NormalisationRequest,
  type NormalisedTest,
  type NormalisedTests,
} from "./table/normalise-tests";
export { findingsByRule, type RuleFindings } from "./checks/findings-by-rule";
export { diagnosticHtml } from "./checks/diagnostic-html";
export { didYouMean } from "./reading/likely-name";
export { parseTestsJson } from "./reading/read-tests-json";
export * from "./spreadsheet";
export * from "./audit";
export {
  bpeStress,
  cmrStress,
  modifiedBpeStress,
  type BpeParameters,
  type CmrParameters,
  type ModifiedBpeParameters,
} from "./bond-slip-models";
