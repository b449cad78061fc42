import { f } from "../../statistics";
import type { GroupTest } from "./tests-of-group";

/** A column by which the mean ratio may differ within a group. */
export interface CellColumn {
  readonly name: string;
  /**
   * A column that always parts a group where it varies, as layout does: each layout is designed for
   * on its own.
   */
  readonly always?: boolean;
  /** Value of the column in a row of the table of tests. */
  readonly valueOf: (row: number) => string;
}

/** How a group's tests are parted into cells of one mean. */
export interface Cells {
  readonly columns: readonly string[];
  /** Cell of each test. */
  readonly cellOf: readonly string[];
  /** Whether the columns were found from the data or stated by the user. */
  readonly found: boolean;
}

/**
 * Level at which the mean must differ for a column to part a group, over all columns looked at
 * together.
 */
const LEVEL = 0.05;
/** Share of the series that must lie in cells with at least {@link ENOUGH} series. */
const COVERED = 0.6;
/** Series that a cell needs for a verdict of its own. */
export const ENOUGH = 3;

/** Cells by stated columns. */
export function statedCells(tests: readonly GroupTest[], columns: readonly CellColumn[]): Cells {
  return {
    columns: columns.map(({ name }) => name),
    cellOf: tests.map(({ row }) => cellName(columns, row)),
    found: false,
  };
}

/**
 * Cells by the columns that always part a group where they vary, then by those with which the mean
 * of ln(ratio) differs: forward selection with the mean of each series (in each cell) as one
 * observation, F of the finer against the coarser cells, 5 % shared by the columns looked at
 * (Bonferroni). A column is taken only if at least 60 % of the series then lie in cells of at least
 * 3 series, and at least two degrees of freedom stay between series.
 *
 * Limits: only tests that failed are used. A difference that few series cannot show is not found:
 * the group is then judged as one population over that column, with the difference in its scatter
 * between series. Stated cells are safe against that.
 * @example foundCells(testsOfGroup(comparison.evidence, comparison.tests).tests, [{ name: "layout", valueOf }]).columns
 */
export function foundCells(tests: readonly GroupTest[], candidates: readonly CellColumn[]): Cells {
  const failed = tests.filter(({ lowerBound }) => !lowerBound);
  const varying = candidates.filter(
    ({ valueOf }) => new Set(failed.map(({ row }) => valueOf(row))).size > 1,
  );
  const chosen = varying.filter(({ always }) => always === true);
  let left = varying.filter(({ always }) => always !== true);
  while (left.length > 0) {
    const tried = left.map((column) => ({ column, p: pOfFiner(failed, chosen, column) }));
    const best = tried.reduce((low, one) => (one.p < low.p ? one : low));
    if (!(best.p < LEVEL / tried.length)) break;
    chosen.push(best.column);
    left = left.filter((column) => column !== best.column);
  }
  return { ...statedCells(tests, chosen), found: true };
}

function cellName(columns: readonly CellColumn[], row: number): string {
  return columns.map(({ valueOf }) => valueOf(row)).join(", ");
}

interface SeriesMean {
  readonly series: string;
  readonly coarse: string;
  readonly fine: string;
  readonly mean: number;
}

/** p of a difference between the finer cells; 1 where the finer cells leave too few series. */
function pOfFiner(
  failed: readonly GroupTest[],
  chosen: readonly CellColumn[],
  column: CellColumn,
): number {
  const sums = new Map<
    string,
    { series: string; coarse: string; fine: string; n: number; sum: number }
  >();
  for (const { row, series, ratio } of failed) {
    const coarse = cellName(chosen, row);
    const fine = `${coarse}|${column.valueOf(row)}`;
    const one = sums.get(`${series}|${fine}`) ?? { series, coarse, fine, n: 0, sum: 0 };
    sums.set(`${series}|${fine}`, { ...one, n: one.n + 1, sum: one.sum + Math.log(ratio) });
  }
  const means = [...sums.values()].map(({ series, coarse, fine, n, sum }): SeriesMean => ({
    series,
    coarse,
    fine,
    mean: sum / n,
  }));
  const [coarse, fine] = [
    squaresWithin(means, (one) => one.coarse),
    squaresWithin(means, (one) => one.fine),
  ];
  const [more, rest] = [fine.cells - coarse.cells, means.length - fine.cells];
  if (more < 1 || rest < 2 || fine.covered < COVERED * means.length) return 1;
  if (!(fine.squares > 0)) return coarse.squares > 0 ? 0 : 1;
  return f(more, rest).upperTail((coarse.squares - fine.squares) / more / (fine.squares / rest));
}

function squaresWithin(
  means: readonly SeriesMean[],
  cellOf: (one: SeriesMean) => string,
): { readonly cells: number; readonly squares: number; readonly covered: number } {
  const cells = new Map<string, number[]>();
  for (const one of means) cells.set(cellOf(one), [...(cells.get(cellOf(one)) ?? []), one.mean]);
  let [squares, covered] = [0, 0];
  for (const values of cells.values()) {
    const centre = values.reduce((sum, value) => sum + value, 0) / values.length;
    squares += values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
    if (values.length >= ENOUGH) covered += values.length;
  }
  return { cells: cells.size, squares, covered };
}
