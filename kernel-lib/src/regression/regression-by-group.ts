import { counted } from "../statistics/reading";
import { notEstimable, type NotEstimable, type NotEstimableReason } from "../statistics/result";
import { RegressionError, type RegressionErrorCode } from "./regression-error";
import type { NumericColumn, SetAsideRow } from "./model-rows";
import { leastSquares, type LeastSquaresFit } from "./least-squares";
import type { StandardErrorMethod } from "./sandwich";

export interface RegressionByGroupInput {
  readonly y: NumericColumn;
  readonly columns: Readonly<Record<string, NumericColumn>>;
  /** Class of each row, such as the bar material. */
  readonly groups: ArrayLike<string>;
  readonly weights?: NumericColumn;
  readonly intercept?: boolean;
  readonly standardErrors?: StandardErrorMethod;
  readonly confidence?: number;
  readonly response?: string;
}

const REASON_OF: Partial<Record<RegressionErrorCode, NotEstimableReason>> = {
  rank_deficient: "columns not independent",
  not_positive: "values not positive",
  one_class: "too few groups",
  one_study: "one series only",
  too_few_failures: "too few failures",
  no_convergence: "search without end",
};

/** One class: its own fit, or the reason there is none. */
export type GroupRegression =
  | {
      readonly status: "ok";
      readonly group: string;
      readonly n: number;
      readonly fit: LeastSquaresFit;
      readonly reading: string;
    }
  | (NotEstimable & { readonly group: string; readonly code: RegressionErrorCode });

export interface RegressionByGroup {
  readonly method: string;
  readonly assumptions: readonly string[];
  readonly n: number;
  readonly excluded: readonly SetAsideRow[];
  readonly groups: readonly GroupRegression[];
  readonly reading: string;
}

/**
 * A separate least-squares fit for each class (each with its own scatter), in order of first
 * appearance. A class that cannot be fitted is a named "cannot be estimated", not an error, and the
 * others still show. Row indices of a fit (`rows`, `excluded`) are those of the whole data. For a
 * test of whether the slopes differ, use {@link ancova}.
 *
 * @throws RegressionError unequal_lengths
 * @example regressionByGroup({ y: ratio, columns: { bar_diameter_mm }, groups: bar_material })
 */
export function regressionByGroup(input: RegressionByGroupInput): RegressionByGroup {
  const n = input.y.length;
  if (input.groups.length !== n)
    throw new RegressionError(
      "unequal_lengths",
      `The groups have ${input.groups.length} rows, expected ${n} as in y`,
    );
  const rowsOf = new Map<string, number[]>();
  const excluded: SetAsideRow[] = [];
  for (let i = 0; i < n; i += 1) {
    const group = input.groups[i]!;
    if (group === "") {
      excluded.push({ row: i, reason: "no class named" });
      continue;
    }
    const rows = rowsOf.get(group);
    if (rows === undefined) rowsOf.set(group, [i]);
    else rows.push(i);
  }
  const groups = [...rowsOf].map(([group, rows]) => fitGroup(input, group, rows));
  const fitted = groups.filter((g) => g.status === "ok");
  for (const g of groups) if (g.status === "ok") excluded.push(...g.fit.excluded);
  return {
    method: "Separate least-squares fit for each class",
    assumptions: [
      "each class has a separate line and scatter",
      "rows are independent unless clusters are given",
    ],
    n: groups.reduce((sum, g) => sum + (g.status === "ok" ? g.fit.n : 0), 0),
    excluded,
    groups,
    reading: `${counted(fitted.length, "class", "classes")} fitted of ${groups.length}. ${groups.map((g) => `${g.group}: ${g.reading}`).join(" ")}`,
  };
}

function fitGroup(
  input: RegressionByGroupInput,
  group: string,
  rows: readonly number[],
): GroupRegression {
  const take = (column: NumericColumn): Float64Array => Float64Array.from(rows, (i) => column[i]!);
  const { standardErrors } = input;
  try {
    const fit = leastSquares({
      y: take(input.y),
      columns: Object.fromEntries(
        Object.entries(input.columns).map(([name, column]) => [name, take(column)]),
      ),
      ...(input.weights === undefined ? {} : { weights: take(input.weights) }),
      ...(input.intercept === undefined ? {} : { intercept: input.intercept }),
      ...(input.confidence === undefined ? {} : { confidence: input.confidence }),
      ...(input.response === undefined ? {} : { response: input.response }),
      ...(standardErrors === undefined
        ? {}
        : {
            standardErrors:
              typeof standardErrors === "object"
                ? { clusters: rows.map((i) => standardErrors.clusters[i]!) }
                : standardErrors,
          }),
    });
    const whole = {
      ...fit,
      rows: fit.rows.map((i) => rows[i]!),
      excluded: fit.excluded.map((s) => ({ ...s, row: rows[s.row]! })),
    };
    return { status: "ok", group, n: fit.n, fit: whole, reading: fit.reading };
  } catch (error) {
    if (!(error instanceof RegressionError)) throw error;
    return {
      ...notEstimable(
        "Line of one class",
        REASON_OF[error.code] ?? "too few values",
        error.message,
        rows.length,
      ),
      group,
      code: error.code,
    };
  }
}
