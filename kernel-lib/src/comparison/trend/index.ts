export {
  trendByGroup,
  type TrendByGroup,
  type TrendFamily,
  type TrendLine,
  type TrendPoint,
  type TrendQuestion,
} from "./trend";
export type { TrendPrediction } from "./predictions";
export { trendAnswer, trendFindings, type TrendWords } from "./trend-words";
