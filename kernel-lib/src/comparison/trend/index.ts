export { trendByGroup, type TrendByGroup, type TrendFamily } from "./trend";
export type { TrendLine, TrendPoint, TrendQuestion } from "./trend-line";
export type { TrendPrediction } from "./predictions";
export { trendAnswer, trendFindings, type TrendWords } from "./trend-words";
