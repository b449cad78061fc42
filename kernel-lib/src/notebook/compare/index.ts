export { compareOutputs } from "./compare-cells";
export type { OutputComparison, OutputVerdict } from "./compare-cells";
export { FIGURE_TYPE } from "./compare-figures";
export { TABLE_TYPE } from "./compare-tables";
export { relativeDifference } from "./difference";
export type { Difference } from "./difference";
export { VOLATILE_RULES, VOLATILE_TAG } from "./volatile-rules";
export type { VolatileRule } from "./volatile-rules";
