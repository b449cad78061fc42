/** Where in a pair of outputs a difference lies, for marking it where it is shown. */
export interface DifferencePlace {
  /** The pair of outputs, from 1. */
  readonly output?: number;
  /** The media type in which it was found. */
  readonly form?: string;
  /** In a table: the values of the key columns, and the column. */
  readonly row?: readonly string[];
  readonly column?: string;
  /** In a text: the lines, from 1; absent on the side that has no such line. */
  readonly recordedLine?: number;
  readonly rerunLine?: number;
}

/** One place where rerun and recorded differ. */
export interface Difference {
  /** Where, in words: output, row and column, trace and point, or line. */
  readonly where: string;
  readonly recorded: string;
  readonly rerun: string;
  /** |rerun - recorded| / max(|recorded|, |rerun|), for numbers. */
  readonly relative?: number;
  /** The volatile rule that accounts for the difference. */
  readonly rule?: string;
  readonly place: DifferencePlace;
}

/** What a difference means for the verdict. */
export type DifferenceMeaning = "changed" | "within_tolerance" | "volatile";

/** Whether a difference is a change, or is allowed by the tolerance or by a volatile rule. */
export function meaningOf(
  { relative, rule }: Pick<Difference, "relative" | "rule">,
  tolerance: number,
): DifferenceMeaning {
  if (rule !== undefined) return "volatile";
  return relative !== undefined && relative <= tolerance ? "within_tolerance" : "changed";
}

/**
 * Numbers that differ by no more than this share of the largest value of their column are rounding:
 * some 4500 units in the last place of that value.
 */
const COLUMN_FLOOR = 1e-12;

/** The largest absolute value among the finite numbers of a column, 0 where there is none. */
export function sizeOf(column: Iterable<unknown>): number {
  let size = 0;
  for (const value of column)
    if (typeof value === "number" && Number.isFinite(value) && Math.abs(value) > size)
      size = Math.abs(value);
  return size;
}

/** Gathers differences while outputs are walked through. */
export class DifferenceList {
  readonly found: Difference[] = [];
  private place: DifferencePlace = {};

  constructor(readonly tolerance: number) {}

  /** `size` is the largest absolute value of the column that the two numbers stand in. */
  number(where: string, recorded: number, rerun: number, size = 0): void {
    if (Object.is(recorded, rerun) || recorded === rerun) return;
    const relative = relativeDifference(recorded, rerun);
    const ofColumn = size > 0 ? Math.abs(recorded - rerun) / size : Infinity;
    // A remainder of cancelling terms, 1e-17 against -2e-17, is judged by what was cancelled.
    const rounding =
      relative > this.tolerance && ofColumn <= Math.min(COLUMN_FLOOR, this.tolerance);
    this.found.push({
      where: rounding ? `${where} (relative to the column's largest value)` : where,
      recorded: String(recorded),
      rerun: String(rerun),
      relative: rounding ? ofColumn : relative,
      place: this.place,
    });
  }

  other(where: string, recorded: string, rerun: string, rule?: string): void {
    this.found.push({
      where,
      recorded,
      rerun,
      place: this.place,
      ...(rule === undefined ? {} : { rule }),
    });
  }

  /** Notes the place of all differences that `compare` finds. */
  within(place: DifferencePlace, compare: () => void): void {
    const outer = this.place;
    this.place = { ...outer, ...place };
    compare();
    this.place = outer;
  }
}

/** Relative difference of two numbers, between 0 and 2; infinite when one is not a number. */
export function relativeDifference(a: number, b: number): number {
  const size = Math.max(Math.abs(a), Math.abs(b));
  if (size === 0) return 0;
  const relative = Math.abs(a - b) / size;
  return Number.isNaN(relative) ? Infinity : relative;
}
