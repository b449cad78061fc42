export { andersonDarling } from "./anderson-darling";
export { shapiroWilk } from "./shapiro-wilk";
export type { NormalityOptions, NormalityTest } from "./normality-test";
