export {
  COMBINATIONS,
  factoredLoad,
  governingCombination,
  LOAD_MODELS,
  loadModel,
  marginal,
  type LoadCombination,
  type LoadModel,
  type LoadStatistics,
  type MarginalKind,
} from "./load-statistics";
export {
  resistanceStatistics,
  withoutMeasurementScatter,
  type ResistanceStatistics,
  type ScatterSource,
} from "./resistance-statistics";
export {
  lognormalReliabilityIndex,
  lognormalResistanceFactor,
  sumOfLoads,
  type LognormalPair,
} from "./lognormal-closed-form";
export { firstOrderReliability, type FirstOrderReliability } from "./first-order-reliability";
export { limitStateOf, type LimitState, type LimitStateFormula } from "./limit-state";
export {
  simulatedReliability,
  type SimulatedReliability,
  type SimulationSettings,
} from "./simulated-reliability";
export {
  designLimitState,
  reliabilityOverLoadRatio,
  type DesignReliabilityInput,
  type ReliabilityAtLoadRatio,
} from "./reliability-over-load-ratio";
export {
  factorForTargetIndex,
  type TargetFactor,
  type TargetFactorInput,
} from "./factor-for-target-index";
export {
  groupReliability,
  type GroupReliability,
  type GroupReliabilitySettings,
  type ScatterOf,
} from "./group-reliability";
export {
  indexByMethod,
  reliabilityOfGroups,
  SMALL_SAMPLE,
  type IndexByMethod,
  type ReliabilityOfGroup,
  type ReliabilityOfGroupsSettings,
} from "./reliability-of-groups";
