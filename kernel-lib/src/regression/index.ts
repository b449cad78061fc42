export { RankDeficientError, RegressionError, type RegressionErrorCode } from "./regression-error";
export type { NumericColumn, SetAsideRow } from "./model-rows";
export type { RegressionStatement } from "./statement";
export type { Coefficient } from "./coefficient-table";
export type { StandardErrorMethod } from "./sandwich";
export { toleranceFactorAtLeverage, type BandOptions, type Bands } from "./bands";
export { leastSquares, type LeastSquaresFit, type LeastSquaresInput, type OverallTest } from "./least-squares";
export { regressionByGroup, type GroupRegression, type RegressionByGroup, type RegressionByGroupInput } from "./regression-by-group";
