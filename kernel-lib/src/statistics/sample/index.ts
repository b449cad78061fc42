export { isNoSpread, mean, standardDeviation, sumOfSquares, variance } from "./moments";
export { sampleQuantile } from "./quantiles";
export type { QuantileType } from "./quantiles";
export { summarize } from "./summarize";
export type { Summary } from "./summarize";
export { characteristicValue } from "./characteristic-value";
export type { CharacteristicOptions, CharacteristicValue } from "./characteristic-value";
export { meanMinusThreeSd } from "./mean-minus-three-sd";
export type { MeanMinusThreeSd } from "./mean-minus-three-sd";
