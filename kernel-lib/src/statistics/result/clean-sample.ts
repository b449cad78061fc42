import type { Excluded } from "./account";

/** A sample without its missing values, and the count of those. */
export interface CleanSample {
  values: number[];
  excluded: Excluded[];
}

/**
 * Takes missing values (NaN) out of a sample and counts them.
 * @throws RangeError for an infinite value: that is an error of the data, not a missing value
 */
export function cleanSample(values: ArrayLike<number>, where: string): CleanSample {
  const kept: number[] = [];
  let missing = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i]!;
    if (typeof value !== "number")
      throw new TypeError(`${where}: value ${i} is ${String(value)}, expected a number`);
    if (Number.isNaN(value)) missing += 1;
    else if (!Number.isFinite(value))
      throw new RangeError(`${where}: value ${i} is ${value}, expected a finite number`);
    else kept.push(value);
  }
  return {
    values: kept,
    excluded: missing > 0 ? [{ count: missing, reason: "missing value" }] : [],
  };
}
