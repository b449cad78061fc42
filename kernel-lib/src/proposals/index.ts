export { roundToSafeSide } from "./rounding";
export type { Proposal } from "./proposal";
export { applyProposal } from "./apply-proposal";
export { characteristicFactor, type DerivedFactor, type FactorSettings, type Origin } from "./characteristic-factor";
export { beforeAfterOf, type BeforeAfter, type BeforeAfterGroup } from "./before-after";
export * from "./en1990-d8";
export { smallSampleCorrection, testBasedResistanceFactor, type TestBasedInput, type TestBasedResistanceFactor } from "./test-based-resistance-factor";
export * from "./reliability";
