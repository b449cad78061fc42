export { characteristicBySeries, FEWEST_SERIES, type CharacteristicBySeries, type CharacteristicBySeriesInput } from "./characteristic-by-series";
export { boundByAnalysisOfVariance, type AnalysisOfVarianceBound } from "./analysis-of-variance-bound";
export type { OneWayLayout } from "./one-way-layout";
