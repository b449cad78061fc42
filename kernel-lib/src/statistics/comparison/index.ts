export { equalVarianceTest, welchTest } from "./t-test";
export type { TTest, TTestOptions } from "./t-test";
export { welchFamily } from "./welch-family";
export type { FamilyQuestion, FamilyTest } from "./welch-family";
export type { ComparisonNames } from "./two-samples";
export { fiellerInterval } from "./ratio-interval";
export type { RatioInterval } from "./ratio-interval";
export { mannWhitney } from "./mann-whitney";
export type { MannWhitneyTest } from "./mann-whitney";
export { ratioOfMeans } from "./ratio-of-means";
export type { RatioOfMeans, RatioOptions } from "./ratio-of-means";
export {
  analysisOfVariance,
  equalVariancesTest,
  welchAnalysisOfVariance,
} from "./analysis-of-variance";
export type { AnalysisOfVariance } from "./analysis-of-variance";
export type { NamedSamples } from "./several-samples";
export { gamesHowellComparison, tukeyComparison } from "./pairwise";
export type { PairDifference, PairwiseComparison } from "./pairwise";
export { adjustPValues } from "./adjust-p-values";
export type { Adjustment } from "./adjust-p-values";
export { hedgesG } from "./hedges-g";
export type { HedgesG } from "./hedges-g";
export { equivalenceTest } from "./equivalence";
export type { EquivalenceMargin, EquivalenceTest } from "./equivalence";
export {
  minimumDetectableDifference,
  powerOfTTest,
  sampleSizeForDifference,
  sampleSizesForDifference,
} from "./power";
export type { PowerQuestion, ScatterWithin } from "./power";
