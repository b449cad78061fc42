export { roundToSafeSide } from "./rounding";
export type { Proposal } from "./proposal";
export { applyProposal } from "./apply-proposal";
export { characteristicFactor, type DerivedFactor, type FactorSettings, type Origin } from "./characteristic-factor";
export { beforeAfterOf, type BeforeAfter, type BeforeAfterGroup } from "./before-after";
