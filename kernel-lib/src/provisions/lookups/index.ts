export { BAR_SIZES, barSize, type BarSize, type BarSystem } from "./bar-sizes";
export {
  ASTM_D7957_BARS,
  ASTM_D7957_PROPERTIES,
  astmD7957Bar,
  type GuaranteedBar,
  type LeastProperty,
} from "./astm-d7957";
export {
  ANCHOR_LIGHTWEIGHT,
  anchorLightweightFactor,
  lightweightFactor,
  type LightweightFailure,
} from "./lightweight";
export {
  ENVIRONMENTAL_FACTORS,
  environmentalFactor,
  environmentalFactorOfBar,
  type EnvironmentalFactor,
} from "./environmental-factors";
export { threadedArea } from "./threaded-area";
export { LOOKUPS, LOOKUP_GAPS, type LookupCard } from "./list";
export { convertStrength, meanStrength, type ConvertedStrength } from "./concrete-strength";
