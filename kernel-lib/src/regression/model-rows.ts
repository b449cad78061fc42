import { RegressionError } from "./regression-error";

/** Numbers in row order: an array or a typed array; NaN marks a missing value. */
export type NumericColumn = ArrayLike<number>;

/** A row of the data that the model does not use, and why. */
export interface SetAsideRow {
  /** Index in the data as given, from 0. */
  readonly row: number;
  readonly reason: string;
}

/** The rows a model can use, gathered into dense columns. */
export interface ModelRows {
  readonly n: number;
  readonly y: Float64Array;
  /** Column names in the order of `columns`; "(intercept)" first when there is one. */
  readonly names: readonly string[];
  readonly columns: readonly Float64Array[];
  readonly weights: Float64Array | null;
  /** Index in the data as given of each row used. */
  readonly rows: Int32Array;
  readonly excluded: readonly SetAsideRow[];
}

export interface ModelInput {
  readonly y: NumericColumn;
  readonly columns: Readonly<Record<string, NumericColumn>>;
  readonly intercept?: boolean;
  readonly weights?: NumericColumn;
  /** Extra reasons to set a row aside, such as a blank study; return null to keep it. */
  readonly reject?: (row: number) => string | null;
}

export const INTERCEPT = "(intercept)";

/**
 * Gathers complete rows. A row with a missing (NaN) or infinite value in y, a column or
 * the weights, or with weight 0, is excluded with its reason; nothing is dropped in silence.
 *
 * @throws RegressionError unequal_lengths, invalid_weight (negative)
 */
export function gatherRows(input: ModelInput): ModelRows {
  const given = Object.entries(input.columns);
  const total = input.y.length;
  for (const [name, column] of given) {
    if (column.length !== total)
      throw new RegressionError(
        "unequal_lengths",
        `Column "${name}" has ${column.length} rows, expected ${total} as in y`,
      );
  }
  if (input.weights !== undefined && input.weights.length !== total) {
    throw new RegressionError(
      "unequal_lengths",
      `The weights have ${input.weights.length} rows, expected ${total} as in y`,
    );
  }
  const excluded: SetAsideRow[] = [];
  const rows: number[] = [];
  for (let i = 0; i < total; i += 1) {
    const reason = whyNot(input, given, i);
    if (reason === null) rows.push(i);
    else excluded.push({ row: i, reason });
  }
  const take = (column: NumericColumn): Float64Array => Float64Array.from(rows, (i) => column[i]!);
  const intercept = input.intercept ?? true;
  return {
    n: rows.length,
    y: take(input.y),
    names: [...(intercept ? [INTERCEPT] : []), ...given.map(([name]) => name)],
    columns: [
      ...(intercept ? [new Float64Array(rows.length).fill(1)] : []),
      ...given.map(([, column]) => take(column)),
    ],
    weights: input.weights === undefined ? null : take(input.weights),
    rows: Int32Array.from(rows),
    excluded,
  };
}

function whyNot(
  input: ModelInput,
  given: readonly (readonly [string, NumericColumn])[],
  i: number,
): string | null {
  if (!Number.isFinite(input.y[i])) return "no finite value of y";
  for (const [name, column] of given)
    if (!Number.isFinite(column[i])) return `no finite value of "${name}"`;
  if (input.weights !== undefined) {
    const weight = input.weights[i]!;
    if (weight < 0)
      throw new RegressionError(
        "invalid_weight",
        `Weight of row ${i} is ${weight}, expected 0 or more`,
      );
    if (!Number.isFinite(weight)) return "no finite weight";
    if (weight === 0) return "weight 0";
  }
  return input.reject?.(i) ?? null;
}

/** Gathers the columns named by a fitted model for prediction; NaN stays NaN. */
export function gatherNewColumns(
  names: readonly string[],
  columns: Readonly<Record<string, NumericColumn>>,
): Float64Array[] {
  const wanted = names.filter((name) => name !== INTERCEPT);
  const length =
    wanted.length === 0
      ? (Object.values(columns)[0]?.length ?? 1)
      : (columns[wanted[0]!]?.length ?? 0);
  return names.map((name) => {
    if (name === INTERCEPT) return new Float64Array(length).fill(1);
    const column = columns[name];
    if (column === undefined)
      throw new RegressionError(
        "missing_column",
        `The new data have no column "${name}"; expected ${wanted.map((w) => `"${w}"`).join(", ")}`,
      );
    if (column.length !== length)
      throw new RegressionError(
        "unequal_lengths",
        `New column "${name}" has ${column.length} rows, expected ${length}`,
      );
    return Float64Array.from(column);
  });
}
