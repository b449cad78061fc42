export { trendByGroup, type TrendByGroup, type TrendFamily } from "./trend";
export type { TrendLine, TrendPoint, TrendQuestion, TrendUnit } from "./trend-line";
export { characteristicAlong, type TrendPrediction } from "./predictions";
export { trendGaps, type TrendGap } from "./gaps";
export { trendOutliers, type TrendOutlier } from "./outliers";
export { seriesModels, SLOPE_OF_ALL, type SeriesModel } from "./series-model";
export { allowedForClause, allowedWords, seriesModelFinding } from "./series-model-words";
export { trendAnswer, trendFindings, type TrendWords } from "./trend-words";
