/**
 * The face that notebooks import: data, predictions, comparison, statistics, proposals, figures and
 * tables.
 * @example
 * import { openStudy, code, compare, groupRatios, show, ratioGroupTable } from "kernel-lib";
 */
export * from "./units";
export * from "./dataset";
export * from "./curves";
export * from "./statistics";
export * from "./regression";
export { symbolLatex, symbolText } from "./formula";
export * from "./provisions";
export * from "./comparison";
export * from "./proposals";
export * from "./figures";
export * from "./tables";
// Names that two rooms use: which one a notebook gets.
export type { Confidence, FailureMode } from "./dataset";
export type { Trace } from "./provisions";
export type { BeforeAfterGroup } from "./proposals";
export type { ColumnKind } from "./tables";
export {
  conditionWords,
  Draft,
  draftText,
  type DraftParagraph,
  type DraftResults,
  type ParagraphName,
} from "./exports/draft";
export { generateDemonstration, TRUTH } from "./demonstration";
export { openStudy, type StudyOptions } from "./face/open-study";
export { datasetFolders, projectRoot } from "./face/project";
export type { Study } from "./face/study";
export { specimen } from "./face/tests/specimen";
export { bundleOf, show } from "./face/show";
export { keep } from "./face/keep";
export { importTests, type Imported, type ImportOptions } from "./face/imported";
export { openReview, type Review } from "./face/review";
export type { Audit } from "./face/audit";
export type { CurveFits } from "./face/curve-fits";
export type { Curves } from "./face/curves";
export type { TriedDrift } from "./face/tried-drift";
export type { GripComparison, GripOptions, Grips } from "./face/grips";
export type { BetterGripOutcome, RequiredGripMargin } from "./face/grip-outcomes";
export type { Packet } from "./face/packet";
// The short forms of a notebook stand before those of the room of statistics.
export { sampleSummary, toleranceFactor, type SampleSummary } from "./face/numbers";
export { plotOf } from "./face/plot/plot-of";
export { tableOf } from "./face/plot/table-of";
export { writeStudyPacket } from "./face/write-study-packet";
export { caution, colophon, version } from "./face/colophon";
