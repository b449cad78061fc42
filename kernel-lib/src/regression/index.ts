export { RankDeficientError, RegressionError, type RegressionErrorCode } from "./regression-error";
export type { NumericColumn, SetAsideRow } from "./model-rows";
export type { RegressionStatement } from "./statement";
export type { Coefficient } from "./coefficient-table";
export type { StandardErrorMethod } from "./sandwich";
export { toleranceFactorAtLeverage, type BandOptions, type Bands } from "./bands";
export {
  leastSquares,
  type LeastSquaresFit,
  type LeastSquaresInput,
  type OverallTest,
} from "./least-squares";
export {
  regressionByGroup,
  type GroupRegression,
  type RegressionByGroup,
  type RegressionByGroupInput,
} from "./regression-by-group";
export { ancova } from "./ancova";
export {
  type Ancova,
  type AncovaInput,
  type ClassDifference,
  type ClassGap,
  type ClassLine,
} from "./ancova-result";
export {
  censoredRegression,
  type CensoredRegression,
  type CensoredRegressionInput,
} from "./censored-regression";
export { mixedModel } from "./mixed-model";
export {
  type MixedModel,
  type MixedModelInput,
  type ScatterComponent,
  type StudyEffect,
} from "./mixed-model-result";
export {
  normalQuantilePlot,
  rowDiagnostics,
  varianceInflation,
  type RowDiagnostics,
} from "./diagnostics";
export {
  informationCriteria,
  leaveGroupOutError,
  nestedTest,
  type InformationCriteria,
  type LeaveGroupOut,
  type NestedTest,
} from "./model-comparison";
export { powerModel, type PowerBands, type PowerModel } from "./power-model";
export {
  robustRegression,
  type RobustRegression,
  type RobustRegressionInput,
} from "./robust-regression";
export { Dual, powerOf } from "./dual-number";
export {
  nonlinearLeastSquares,
  type NonlinearFit,
  type NonlinearInput,
} from "./nonlinear-least-squares";
