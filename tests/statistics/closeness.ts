import { expect } from "vitest";

/** Relative error against a reference; absolute where the reference is zero. */
export function expectRelative(
  actual: number,
  reference: number,
  tolerance: number,
  what = "",
): void {
  expect(Number.isNaN(actual), `${what}: ${actual} for ${reference}`).toBe(false);
  const error = reference === 0 ? Math.abs(actual) : Math.abs(actual / reference - 1);
  expect(error, `${what}: ${actual} for ${reference}`).toBeLessThanOrEqual(tolerance);
}
