/**
 * Eighteen invented test-to-predicted ratios by bar diameter (mm), material and study; the R calls
 * in the tests use the same numbers.
 */
export const y = [
  1.32, 1.18, 1.25, 1.05, 1.1, 0.98, 0.91, 0.95, 0.88, 1.21, 1.15, 1.19, 1.12, 1.08, 1.16, 1.04,
  1.09, 1.02,
];
export const x = [10, 10, 12, 16, 16, 20, 20, 25, 25, 10, 12, 12, 16, 16, 20, 20, 25, 25];
export const groups = y.map((_, i) => (i < 9 ? "glass" : "steel"));
export const study = [1, 1, 2, 2, 3, 3, 1, 2, 3, 4, 4, 5, 5, 4, 5, 6, 6, 6];
export const weights = [1, 2, 1, 3, 1, 1, 2, 1, 1, 1, 2, 1, 1, 3, 1, 2, 1, 1];

/** Relative difference of two numbers. */
export function relative(value: number, expected: number): number {
  return Math.abs(value - expected) / Math.abs(expected);
}
