export { evidenceCells, type EvidenceCell } from "./evidence-cells";
export { planTests, type PlannedTests, type PlanSettings } from "./plan-tests";
export { betweenSeries, ratioModelOf, type RatioModel } from "./ratio-model";
export { specimenFor, type SpecimenChoice, type SpecimenSettings } from "./specimen-choice";
export { testsToSettle, type SettleSettings, type TestsToSettle } from "./tests-to-settle";
