export {
  characteristicBySeries,
  FEWEST_SERIES,
  type CharacteristicBySeries,
  type CharacteristicBySeriesInput,
} from "./characteristic-by-series";
export { RandomEffectsModel } from "./random-effects-model";
export {
  type Estimated,
  type FractileBounds,
  type FractileQuestion,
  type RandomEffectsSample,
} from "./series-estimates";
export {
  boundByAnalysisOfVariance,
  type AnalysisOfVarianceBound,
} from "./analysis-of-variance-bound";
export { lineBySeries, type LineBySeriesInput } from "./line-by-series";
export {
  nestedAnalysisOfVariance,
  type GroupInSeries,
  type NestedAnalysis,
} from "./nested-analysis";
export type { OneWayLayout } from "./one-way-layout";
export { drawLaw, type SeriesLaw, type UncertainLaw } from "./uncertain-law";
