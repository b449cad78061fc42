import { TEST_COLUMNS, testColumn } from "../../dataset";
import { knownName } from "../results/names";
import type { NumberColumn } from "../tests/study-row";
import type { Varied } from "./governing-modes";

/** Numbers of a row to vary, each from one value to another in the unit of its column. */
export type Ranges = { readonly [K in NumberColumn]?: readonly [from: number, to: number] };

const NOT_VARIED = ["load_sd_kN", "peak_load_kN", "slip_at_peak_mm", "grip_break_stress_MPa"];

/**
 * One or two ranges, checked.
 * @throws UnknownNameError for a column that predictions cannot vary; RangeError for a range that
 *   does not rise or leaves the limits of its column, and for none or more than two ranges
 */
export function rangesOver(over: Ranges): readonly [Varied, Varied?] {
  const known = TEST_COLUMNS.filter(
    ({ name, kind }) => kind === "number" && !NOT_VARIED.includes(name),
  ).map(({ name }) => name);
  const ranges = Object.entries(over).map(([column, range]): Varied => {
    knownName("column to vary", column, known);
    const [from, to] = (range ?? []) as readonly number[];
    const { above = -Infinity, minimum = -Infinity, maximum = Infinity } = testColumn(column)!;
    if (
      from === undefined ||
      to === undefined ||
      !(from < to && from > above && from >= minimum && to <= maximum && Number.isFinite(to))
    )
      throw new RangeError(
        `${column}: the range is ${JSON.stringify(range)}; expected [from, to] that rises, within the limits of the column${above === -Infinity ? "" : ` (above ${above})`}.`,
      );
    return { column, from, to };
  });
  const [first, second] = ranges;
  if (first === undefined || ranges.length > 2)
    throw new RangeError(
      `${ranges.length} ranges are stated; expected one or two, such as { concrete_strength_MPa: [20, 60] }.`,
    );
  return second === undefined ? [first] : [first, second];
}
