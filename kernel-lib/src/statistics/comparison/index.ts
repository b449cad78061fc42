export { equalVarianceTest, welchTest } from "./t-test";
export type { TTest, TTestOptions } from "./t-test";
export type { ComparisonNames } from "./two-samples";
export { fiellerInterval } from "./ratio-interval";
export type { RatioInterval } from "./ratio-interval";
