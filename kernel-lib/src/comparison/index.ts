export { tellsOf, type BoundRule } from "./bounds";
export { compare, type Comparison, type ComparisonSettings, type Evidence, type Way } from "./compare";
export { groupRatios, type GroupSettings, type RatioGroup } from "./groups";
export { verdictOf, type Verdict } from "./verdict";
export { modeTable, type ModeTable } from "./mode-table";
export { compareSeries, type SeriesComparison, type SeriesQuestion } from "./series-comparison";
export { compareByMode, type ModeComparison, type ModeQuestion } from "./material-by-mode";
export { labelWords, valueWords } from "./labels";
export { anchorTests } from "./anchor-tests";
