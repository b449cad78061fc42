export {
  bondStressByStudy,
  type BondStressByStudy,
  type BondStressTest,
} from "./bond-stress-by-study";
export { boundsByMode, type BoundCount } from "./bounds-by-mode";
export { evidenceOf, type LowerBoundRule } from "./lower-bound-rule";
export { assumedStrength, type AssumedStrength } from "./assumed-strength";
export { compare } from "./compare";
export {
  type Comparison,
  type ComparisonSettings,
  type Evidence,
  type NotJudged,
  type CapacityOf,
} from "./comparison";
export { groupRatios } from "./groups";
export { groupsWithout, type GroupWithout } from "./groups-without";
export { CELL_CANDIDATES } from "./cell-candidates";
export { type BiasOfModel } from "./bias-of-model";
export { type GroupSettings, type RatioGroup } from "./ratio-group";
export {
  UPPER_SHARE,
  distributionOfCode,
  type Verdict,
  type VerdictWord,
} from "./judging/question";
export type { CellBounds } from "./judging/in-general";
export { testsOfGroup, type GroupTest, type TestsOfGroup } from "./judging/tests-of-group";
export { keyReader } from "./group-keys";
export type { InGeneral } from "./judging/judge-group";
export { layoutOfTests, type LayoutWord } from "./judging/layout";
export { verdictLines } from "./verdict-lines";
export { modeAgreement, modeTable, type ModeAgreement, type ModeTable } from "./mode-table";
export {
  compareSeries,
  seriesTooSmall,
  type SeriesComparison,
  type SeriesQuestion,
  type SeriesTooSmall,
} from "./series-comparison";
export { classStrata, type ClassStratum } from "./class-strata";
export { powerOfDifference } from "./class-margin";
export { compareClasses, type ModeComparison, type ModeQuestion } from "./material-by-mode";
export { capitalised, labelWords, valueWords } from "./labels";
export {
  accountOf,
  notJudgedByGroup,
  rejectedOnReading,
  type RowAccount,
  type CountedReason,
  type CountedStatus,
  type JudgedRows,
  type ObservedRows,
} from "./account";
export { accountInParts, type PartOfAccount } from "./account-in-parts";
export { onePerTest } from "./one-per-test";
export type { Components, RatioMode } from "./pairs-of-test";
export {
  SETUP_FACTORS,
  setupFactor,
  type ConfinedBondFactor,
  type SetupFactor,
  type SetupFactorName,
} from "./setup-factor";
export type { NotJudgedStatus, Scope, Status } from "./scope";
export * from "./grips";
export * from "./trend";
export { comparisonSettings } from "./comparison-settings";
