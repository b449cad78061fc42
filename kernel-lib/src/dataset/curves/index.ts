export { CURVE_VALUES_FILE, curveValuesCsv, parseCurveValues, type CurveValues } from "./curve-values";
export { isInside, reduceCurveFiles, reduceCurvesOf, type ReducedCurves, type ReducedTest } from "./curves-of-tests";
export { bondSlipCurve, type BondSlipCurve } from "./bond-slip";
export type { Gauge, GaugePlace, LoadCurve } from "./curve";
export { lossOfAdhesion } from "./loss-of-adhesion";
export { parseCurve, readCurve, type CurveReading } from "./read-curve";
export { reduceCurve, type CurveReduction, type ReductionOptions } from "./reduce-curve";
export type { DriftRule } from "./rest-and-drift";
export { noiseOf, smooth, type Smoothing } from "./smooth";
export {
  ascendingAnchorage, bpeStress, cmrStress, malvarStress, malvarStrength, modifiedBpeStress, residualSlip, type AscendingAnchorage, type BpeParameters, type CmrParameters, type MalvarParameters, type ModifiedBpeParameters,
} from "./bond-slip-models";
export type { CurveFit, FittedParameter } from "./curve-fit";
export { fitBondSlip, type BondSlipFit, type BondSlipLaw } from "./fit-bond-slip";
export { curveLinkFindings } from "./curve-links";
export { isSettled, unsettledParameters, type UnsettledParameters } from "./unsettled-parameters";
