export { CRITERIA, type Criterion, type CriterionResult } from "./criterion";
export { asSteel, FEWEST_STEEL_SERIES, type AsSteel } from "./as-steel";
export { steelPairs, type SteelPair } from "./steel-pairs";
export { fractileCriterion } from "./fractile-criterion";
export { reliabilityCriterion, type ReliabilityTarget } from "./reliability-criterion";
export { FactorDerivation, type DerivedFactor, type FactorSettings } from "./derive-factor";
export { reasonableChoices, type ChoiceOutcome, type ReasonableChoices } from "./choices";
export type { LeftOut, LeftOutUnit } from "./left-out";
