export { characteristicOfTests, USUAL_CHOICES, type EvidenceTest, type FactorChoices } from "./characteristic-of-tests";
export { leaveOneOut, type LeftOut } from "./leave-out";
export { reasonableChoices, type ChoiceOutcome, type ReasonableChoices } from "./reasonable-choices";
export { evidenceTests, factorSurvival, type Survival } from "./survival";
