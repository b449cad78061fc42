import { predictionFactor } from "../../statistics";

/**
 * Where a fractile factor comes from: the printed table of EN 1990, or the formula the table was
 * made with.
 */
export type FractileFactorSource = "table" | "exact";

export interface FractileFactorQuestion {
  /** Number of tests; Infinity gives the last entry of the table. */
  readonly n: number;
  /** True for the line "V_X known" of the tables; default false. */
  readonly variationKnown?: boolean;
  /** Default `table`. */
  readonly source?: FractileFactorSource;
}

const COUNTS = [1, 2, 3, 4, 5, 6, 8, 10, 20, 30, Infinity] as const;

/**
 * EN 1990:2002 Table D1, k_n for the 5 % characteristic value; null where the table prints a dash.
 */
export const TABLE_D1: {
  readonly n: readonly number[];
  readonly known: readonly (number | null)[];
  readonly unknown: readonly (number | null)[];
} = {
  n: COUNTS,
  known: [2.31, 2.01, 1.89, 1.83, 1.8, 1.77, 1.74, 1.72, 1.68, 1.67, 1.64],
  unknown: [null, null, 3.37, 2.63, 2.33, 2.18, 2.0, 1.92, 1.76, 1.73, 1.64],
};

/** EN 1990:2002 Table D2, k_d,n for the design value; null where the table prints a dash. */
export const TABLE_D2: {
  readonly n: readonly number[];
  readonly known: readonly (number | null)[];
  readonly unknown: readonly (number | null)[];
} = {
  n: COUNTS,
  known: [4.36, 3.77, 3.56, 3.44, 3.37, 3.33, 3.27, 3.23, 3.16, 3.13, 3.04],
  unknown: [null, null, null, 11.4, 7.85, 6.36, 5.07, 4.51, 3.64, 3.44, 3.04],
};

/**
 * Probability below the design value from which the finite entries of Table D2 follow (its last
 * entry is 3.04).
 */
const DESIGN_FRACTILE = 0.001;

/**
 * k_n of EN 1990 Table D1 for the 5 % characteristic value (dimensionless); null where the table
 * has no entry (n < 3 with V_X unknown).
 *
 * Between printed n the table is read linearly in 1/n: the factor is convex in 1/n, so a chord errs
 * to the safe side; only the last interval of Table D2 is not smooth. EN 1990 prints no rule of its
 * own. `exact`: t(0.95; n − 1) √(1 + 1/n), or 1.645 √(1 + 1/n) with V_X known.
 * @throws RangeError for n that is not a whole number of at least 1
 * @example characteristicFractileFactor({ n: 10 }) // 1.92
 */
export function characteristicFractileFactor(question: FractileFactorQuestion): number | null {
  return factorOf("characteristicFractileFactor", TABLE_D1, 0.05, question);
}

/**
 * k_d,n of EN 1990 Table D2 for the design value (dimensionless); null where the table has no entry
 * (n < 4 with V_X unknown). Read as Table D1. `exact`: t(0.999; n − 1) √(1 + 1/n), within 0.8 % of
 * the finite entries, but 3.09 and not
 * 3.04 at n = ∞: the printed table stands on two fractiles.
 * @throws RangeError for n that is not a whole number of at least 1
 * @example designFractileFactor({ n: 10 }) // 4.51
 */
export function designFractileFactor(question: FractileFactorQuestion): number | null {
  return factorOf("designFractileFactor", TABLE_D2, DESIGN_FRACTILE, question);
}

function factorOf(
  name: string,
  table: typeof TABLE_D1,
  fractile: number,
  question: FractileFactorQuestion,
): number | null {
  const { n, variationKnown = false, source = "table" } = question;
  if (!(n >= 1) || (n !== Infinity && !Number.isInteger(n)))
    throw new RangeError(`${name}: n is ${n}, expected a whole number of at least 1`);
  const line = variationKnown ? table.known : table.unknown;
  if (source === "table") return interpolated(table.n, line, n);
  const first = table.n[line.findIndex((value) => value !== null)] ?? 1;
  return n < first
    ? null
    : predictionFactor({
        n: Math.min(n, 1e12),
        fractile,
        sdKnown: variationKnown || n === Infinity,
      });
}

function interpolated(
  counts: readonly number[],
  line: readonly (number | null)[],
  n: number,
): number | null {
  const above = counts.findIndex((count) => count >= n);
  const upper = line[above] ?? null;
  if (counts[above] === n || upper === null) return upper;
  const lower = line[above - 1] ?? null;
  if (lower === null) return null;
  const [from, to] = [1 / (counts[above - 1] ?? 1), 1 / (counts[above] ?? Infinity)];
  return upper + ((lower - upper) * (1 / n - to)) / (from - to);
}
