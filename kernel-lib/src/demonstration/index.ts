export { plannedCampaign, type Layout, type PlannedSeries } from "./campaign";
export { demonstrationCard } from "./card";
export { CURVE_TRUTH, demonstrationCurves, trueLoadShare, type DemonstrationCurve } from "./curves";
export { competingModes } from "./competing-modes";
export { generateDemonstration } from "./generate";
export { specimenOf } from "./planned-specimen";
export { type Demonstration } from "./demonstration";
export {
  meanBarShear,
  meanBond,
  meanBondStress,
  meanBreakout,
  meanCastInBond,
  meanEdgeBreakout,
  meanPryout,
  meanRupture,
  meanSplitting,
  type Specimen,
} from "./mean-capacity";
export {
  BAR_SIZES,
  barStrengths,
  TRUTH,
  type Adhesive,
  type BarKind,
  type BarSize,
  type BarStrengths,
  type TrueMode,
} from "./truth";
export { DEMONSTRATION_SEED, writeDemonstration } from "./write-demonstration";
