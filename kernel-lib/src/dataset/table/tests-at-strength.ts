import type { FittedExponent } from "./normalise";
import { normaliseTests } from "./normalise-tests";
import { TestTable } from "./test-table";

/** Tests with their loads brought to one concrete strength. */
export interface TestsAtStrength {
  readonly tests: TestTable;
  /** How many rows could not be brought to that strength; each is excluded with its reason. */
  readonly leftOut: number;
  /** The fitted exponent; null where none was asked for. */
  readonly fit: FittedExponent | null;
}

/**
 * The same rows with peak loads (and their standard deviation) brought to one cylinder strength,
 * P (f / f_c)^m, which then is their concrete strength. Rows without an exponent or a known basis
 * of the strength keep load and strength as measured and are excluded with the reason.
 * @param reference_MPa cylinder strength f, MPa
 * @param exponent m; `by_mode`: 0.5 for concrete modes, 0 for bar modes, none for bond; `fitted`:
 *   from these tests
 * @throws RangeError for a strength not above 0, or a fit that is not possible
 * @example testsAtStrength(tests, 30, "by_mode").tests.numbers("peak_load_kN")
 */
export function testsAtStrength(
  tests: TestTable,
  reference_MPa: number,
  exponent: number | "by_mode" | "fitted",
): TestsAtStrength {
  if (!(reference_MPa > 0) || !Number.isFinite(reference_MPa))
    throw new RangeError(`the strength is ${reference_MPa} MPa: expected a number above 0`);
  const found = normaliseTests(tests, {
    quantity: "load",
    by: "concrete",
    reference_MPa,
    exponent,
  });
  const brought = new Map(found.tests.map((one) => [one.index, one]));
  const reasons = new Map(found.leftOut.map(({ index, reason }) => [index, reason]));
  const rows = tests.rows().map((row, i) => {
    const one = brought.get(i);
    if (one === undefined)
      return {
        ...row,
        excluded: row.excluded ?? `not brought to ${reference_MPa} MPa: ${reasons.get(i) ?? ""}`,
      };
    return {
      ...row,
      peak_load_kN: one.normalised,
      load_sd_kN: row.load_sd_kN === null ? null : row.load_sd_kN * one.factor,
      concrete_strength_MPa: reference_MPa,
      concrete_strength_basis: "cylinder" as const,
    };
  });
  return {
    tests: TestTable.fromRows(
      rows,
      rows.map((_, i) => tests.source(i)),
    ),
    leftOut: found.leftOut.length,
    fit: found.fit,
  };
}
