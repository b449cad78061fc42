import type { TestTable } from "../dataset";

/** The range of one column that the tests behind a proposal cover. */
export interface ValidityLimit {
  /** A number column of the tests, e.g. `bar_diameter_mm`. */
  readonly column: string;
  readonly lower: number;
  readonly upper: number;
}

/** How far one value lies outside a limit of validity. */
export interface OutsideLimit extends ValidityLimit {
  readonly value: number;
  readonly side: "below" | "above";
  /** Distance from the nearer limit, in the unit of the column, and as a share of that limit. */
  readonly distance: number;
  readonly share: number;
  readonly says: string;
}

/**
 * Limits of validity from the tests behind a proposal: the least and largest value of each column.
 * @throws RangeError for a column that holds no number in these rows
 * @example testedLimits(tests, rows, ["bar_diameter_mm", "concrete_strength_MPa"])
 */
export function testedLimits(
  tests: TestTable,
  rows: readonly number[],
  columns: readonly string[],
): ValidityLimit[] {
  return columns.map((column) => {
    const values = rows
      .map((row) => tests.numbers(column)[row] ?? NaN)
      .filter((value) => !Number.isNaN(value));
    if (values.length === 0)
      throw new RangeError(
        `testedLimits: ${column} is blank in all ${rows.length} rows, expected at least one value`,
      );
    return { column, lower: Math.min(...values), upper: Math.max(...values) };
  });
}

/**
 * The limits that a design point lies outside of, with how far. A value that is not given is not
 * judged.
 * @example outsideLimits(proposal.limits ?? [], { bar_diameter_mm: 32 })[0]?.says
 */
export function outsideLimits(
  limits: readonly ValidityLimit[],
  point: Readonly<Record<string, number | null | undefined>>,
): OutsideLimit[] {
  return limits.flatMap((limit) => {
    const value = point[limit.column];
    if (
      typeof value !== "number" ||
      Number.isNaN(value) ||
      (value >= limit.lower && value <= limit.upper)
    )
      return [];
    const side = value < limit.lower ? "below" : "above";
    const bound = side === "below" ? limit.lower : limit.upper;
    const distance = Math.abs(value - bound);
    const share = bound === 0 ? Infinity : distance / Math.abs(bound);
    const far = share === Infinity ? "" : ` (${Number((100 * share).toPrecision(2))} %)`;
    return [
      {
        ...limit,
        value,
        side,
        distance,
        share,
        says: `${limit.column} ${value} is ${Number(distance.toPrecision(4))}${far} ${side} the tested range ${limit.lower} to ${limit.upper}: the proposal is not supported by tests there`,
      },
    ];
  });
}
