/**
 * What a notebook imports: a study, its results, and a few functions for numbers of one's own. The
 * rooms behind it (`statistics`, `provisions`, ...) are under `kernel-lib/<room>`.
 * @example
 * import { openStudy, show } from "kernel-lib";
 * const study = await openStudy();
 * show(study.compare("aci318-19").by("mode", "bar_material").table());
 */

// Study and tests
export { openStudy, type StudyOptions } from "./face/open-study";
export type { Study } from "./face/study";
export { specimen } from "./face/tests/specimen";
export type { Tests } from "./face/tests/tests";
export type { TestGroups } from "./face/tests/test-groups";
export type { Condition, Wanted } from "./face/tests/condition";
export type { Changes, StrengthOptions } from "./face/tests/what-if";
export type { CategoryColumn, Column, NumberColumn, TestRow, Values } from "./face/tests/study-row";
export { importTests, type Imported, type ImportOptions } from "./face/imported";
export { draftRecipe, type RecipeDraft } from "./face/recipe-draft";
export type { Audit } from "./face/audit";
export type { CurveFits } from "./face/curve-fits";
export type { Curves } from "./face/curves";
export type { TriedDrift } from "./face/tried-drift";
export type { GripComparison, GripOptions, Grips } from "./face/grips";
export type { BetterGripOutcome, RequiredGripMargin } from "./face/grip-outcomes";

// Codes, columns and terms
export { codeCard, listCodes, listColumns } from "./face/lists";
export { glossary } from "./face/glossary";
export type { CodeId, CodeOptionNames, Mode, ProvisionId } from "./face/results/generated-names";
export type { CodeOption, CodeOptions, PredictOptions } from "./face/results/code-named";
export type {
  Action,
  BarMaterial,
  BarSurface,
  FailureMode,
  Installation,
  Provenance,
  Setup,
  StrengthBasis,
} from "./dataset";

// Predictions
export type { Predictions } from "./face/predictions/predictions";
export type { PredictedRow } from "./face/predictions/predicted-row";
export type { HandCalculation } from "./face/predictions/hand-calculation";
export type { GoverningModes } from "./face/predictions/governing-modes";
export type { Ranges } from "./face/predictions/ranges";
export type { Sensitivity } from "./face/predictions/sensitivity";
export type { DesignOptions, Designs } from "./face/predictions/designs";
export type { EmbedmentOptions, Embedments } from "./face/predictions/embedments";

// Tests compared with codes, and with each other
export type { Comparison } from "./face/comparison/comparison";
export type { CompareOptions } from "./face/comparison/compared-codes";
export type { EvidenceColumn, EvidenceRow } from "./face/comparison/evidence-row";
export type { Groups } from "./face/comparison/groups";
export type { Group } from "./face/comparison/group";
export type { JudgeOptions } from "./face/comparison/judge-options";
export type { RatioFigure } from "./face/comparison/group-figures";
export type { Differences } from "./face/differences/differences";
export type { VersusOptions } from "./face/differences/versus-options";
export type { Trend, TrendOptions } from "./face/trend/trend";

// Proposals
export type { FactorOptions } from "./face/proposals/derived-factors";
export type { Factor } from "./face/proposals/factor";
export type { Factors } from "./face/proposals/factors";
export type { LeftOut } from "./face/proposals/left-out-unit";
export type { Change } from "./face/proposals/change";
export type { ChangeInput } from "./face/proposals/change-input";
export type { Proposal } from "./face/proposals/proposal";
export type { BeforeAfter } from "./face/proposals/before-after";
export type { Ballot } from "./face/proposals/ballot";
export type { Calibration, CalibrateOptions } from "./face/proposals/calibration";
export type { Reliability } from "./face/proposals/reliability";
export type { ReliabilityOptions } from "./face/proposals/reliability-options";
export type { RuleForm, SizeRuleOptions, SizeRules } from "./face/proposals/size-rules";
export type { Plan, PlanOptions } from "./face/proposals/plan";
export type { Packet } from "./face/packet";
export { openPacket, type ReceivedPacket } from "./face/open-packet";
export { openReview, type Review } from "./face/review";

// Numbers of one's own
export { convertUnit } from "./units";
export { sampleSummary, toleranceFactor, type SampleSummary } from "./face/numbers";
export {
  characteristicValue,
  createRandom as seededRandom,
  equivalenceTest,
  powerOfTTest,
  welchTest,
} from "./statistics";

// Output
export { show } from "./face/show";
export { tableOf } from "./face/plot/table-of";
export { plotOf } from "./face/plot/plot-of";
export type { Plot, PrintSize } from "./face/plot/mark-figure";
export type { Findings } from "./face/results/findings";
export type { DrawnResult, FigureOptions, Result, TableOptions } from "./face/results/result";
export { UnknownNameError } from "./face/results/names";
export type { Figure } from "./figures";
export type { Table } from "./tables";
export { caution, version } from "./face/colophon";
