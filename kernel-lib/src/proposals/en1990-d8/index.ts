export {
  characteristicFractileFactor,
  designFractileFactor,
  TABLE_D1,
  TABLE_D2,
  type FractileFactorQuestion,
  type FractileFactorSource,
} from "./fractile-factors";
export { variationOfProduct, type BasicVariable, type VariationBudget } from "./variation-budget";
export { errorTermsOf, type ErrorTerms } from "./error-terms";
export { censoredErrorTermsOf } from "./censored-error-terms";
export { trendChecks, type TrendCheck } from "./trend-checks";
export { resistancesOf, type ResistanceQuestion, type Resistances } from "./resistances";
export { calibrateEn1990 } from "./calibrate";
export { type Calibration, type CalibrationInput } from "./calibration";
export type { SeriesBehind } from "./series-behind";
export type { CalibrationLine } from "./calibration-trace";
export { calibrateGroups, TREND_VARIABLES } from "./calibrate-groups";
