export { toleranceFactor } from "./tolerance-factor";
export type { ToleranceQuestion } from "./tolerance-factor";
