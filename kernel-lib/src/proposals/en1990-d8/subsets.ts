import { calibrateEn1990 } from "./calibrate";
import { type Calibration, type CalibrationInput } from "./calibration";

/**
 * How the sub-sets take k_n: from their own number of tests, or from the total (D.8.2.2.5 permits
 * it).
 */
export type SubsetCount = "own" | "total";

/**
 * Calibration of each sub-set of the tests, named by its class or by a band of a variable. b and
 * V_δ are the sub-set's own. With `total` the fractile factors use the number of all tests, which
 * EN 1990:2002 D.8.2.2.5 permits because the sub-sets share the resistance function.
 * @param subset name of the sub-set of each test; null leaves a test out
 * @throws RangeError for a column of another length
 */
export function calibrateSubsets(
  input: CalibrationInput,
  subset: ArrayLike<string | null>,
  count: SubsetCount = "own",
): Calibration[] {
  const n = input.experimental.length;
  if (subset.length !== n)
    throw new RangeError(
      `calibrateSubsets: ${subset.length} names for ${n} tests, expected one each`,
    );
  const all = Array.from({ length: n }, (_, i) => i);
  const total = all.filter((i) => !input.bounds?.[i] && (subset[i] ?? null) !== null).length;
  const names = [...new Set(all.map((i) => subset[i] ?? null))]
    .filter((name): name is string => name !== null)
    .sort((a, b) => a.localeCompare(b, "en", { numeric: true }));
  return names.map((label) => {
    const rows = all.filter((i) => subset[i] === label);
    const pick = <T>(column: ArrayLike<T>): T[] => rows.map((i) => column[i] as T);
    return calibrateEn1990({
      ...input,
      label,
      experimental: pick(input.experimental),
      theoretical: pick(input.theoretical),
      ...(input.series ? { series: pick(input.series) } : {}),
      ...(input.bounds ? { bounds: pick(input.bounds) } : {}),
      ...(input.variables
        ? {
            variables: Object.fromEntries(
              Object.entries(input.variables).map(([name, column]) => [name, pick(column)]),
            ),
          }
        : {}),
      ...(count === "total" ? { factorCount: total } : {}),
    });
  });
}

/**
 * Names of bands of a variable between limits, for `calibrateSubsets`: "below 12", "12 to 20", "20
 * and more". Missing values get null.
 */
export function bandsOf(variable: ArrayLike<number>, limits: readonly number[]): (string | null)[] {
  const sorted = [...limits].sort((a, b) => a - b);
  return Array.from({ length: variable.length }, (_, i) => {
    const value = variable[i] ?? NaN;
    if (Number.isNaN(value)) return null;
    const k = sorted.filter((limit) => value >= limit).length;
    if (k === 0) return `below ${sorted[0]}`;
    return k === sorted.length ? `${sorted[k - 1]} and more` : `${sorted[k - 1]} to ${sorted[k]}`;
  });
}
