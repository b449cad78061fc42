export { designFindings } from "./findings";
export { factorShares, type FactorShare } from "./factor-shares";
export { designedBar, PARAPET_BAR, type DesignedBar } from "./designed-bar";
export { compareDesigns } from "./compare-designs";
export {
  type AssumptionFactor,
  type DesignComparison,
  type DesignFamily,
  type DesignPoint,
  type DesignSettings,
  type DesignValue,
} from "./design-comparison";
export type { UnstatedReduction } from "./family-parts";
