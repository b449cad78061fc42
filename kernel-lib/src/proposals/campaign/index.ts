export { evidenceCells, type EvidenceCell } from "./evidence-cells";
export type { ModeNotComputed } from "./not-computed";
export { notComputedWords } from "./plan-reading";
export { planTests } from "./plan-tests";
export type { PlannedTests, PlanSettings } from "./planned-tests";
export { knownLaw, ratioModelOf, type RatioModel } from "./ratio-model";
export { SimulatedCampaigns, type CampaignQuestion, type PresentTest } from "./simulated-campaigns";
export { specimenFor, type SpecimenChoice, type SpecimenSettings } from "./specimen-choice";
export { testsToSettle, type SettleSettings, type TestsToSettle } from "./tests-to-settle";
