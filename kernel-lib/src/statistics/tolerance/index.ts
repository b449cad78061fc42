export { toleranceFactor } from "./tolerance-factor";
export type { ToleranceQuestion } from "./tolerance-factor";
export { knownSdToleranceFactor } from "./known-sd-factor";
export { predictionFactor } from "./prediction-factor";
export type { PredictionQuestion } from "./prediction-factor";
export { orderStatisticBound, testsNeededForOrderStatistic } from "./order-statistic-bound";
export type { OrderStatisticBound } from "./order-statistic-bound";
export { noFailureBound } from "./no-failure-bound";
export type { NoFailureBound } from "./no-failure-bound";
