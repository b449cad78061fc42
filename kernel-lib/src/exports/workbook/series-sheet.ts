import { keyReader, labelWords, type Comparison, type RatioGroup } from "../../comparison";
import type { Cell, Sheet } from "../../tables";
import type { SeriesByHand } from "./bounds-by-hand";
import { GroupByHand, type RangesOfRatios } from "./group-by-hand";
import { percent, type CharacteristicQuestion } from "./factor-sheet";

const WIDTHS = [38, 46, 12, 14, 16, 16];
/** Cell of a test by the columns that divide its group in the verdict in general. */
export function cellReader(
  comparison: Comparison,
  { inGeneral: { cellColumns } }: RatioGroup,
): (one: RatioGroup["evidence"][number]) => string {
  const read = keyReader(comparison, cellColumns);
  return (one) =>
    read(one)
      .map((value, k) => labelWords(cellColumns[k]!, value))
      .join(", ");
}

/**
 * The bounds in general by hand (`boundsByHand`), every step a formula over the ratios, beside the
 * library's values.
 *
 * Limits: failures only, one value of the intraclass correlation. The library averages over it and
 * uses lower bounds; the sheet shows the difference.
 */
export function seriesSheet(
  comparison: Comparison,
  groups: readonly { readonly group: RatioGroup; readonly ranges: RangesOfRatios }[],
  question: CharacteristicQuestion,
): Sheet {
  const rows: Cell[][] = [
    [{ value: "Bounds in general, by hand", look: "title" }],
    [
      {
        value: `Tests of one series share concrete, hole and day, so together they carry less information than as many independent tests. Mean squares between and within series give the intraclass correlation ρ; ρ gives the effective number of tests, and with it the factor K of the ${percent(question.fractile)} fractile (approximation of the NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3). The library differs in two ways: it averages over all values of ρ, which few series leave uncertain, and it uses tests that stopped or failed in another mode as lower bounds, which are not used here. The number voted on is the library's; the last column shows how far the hand calculation is from it.`,
        look: "note",
      },
    ],
    [],
  ];
  for (const { group, ranges } of groups) {
    rows.push(headed([group.label, ...Array.from({ length: WIDTHS.length - 1 }, () => null)]));
    const { cells, icc } = group.inGeneral;
    const failures = group.evidence.filter(({ bound }) => !bound).length;
    if (cells.length === 0 || icc === null)
      rows.push(["not estimated", { value: group.reason, look: "wrapped" }]);
    else if (failures !== group.n)
      rows.push([
        "not by hand",
        {
          value: `${failures} rows represent ${group.n} specimens by their reported means and standard deviations.`,
          look: "wrapped",
        },
      ]);
    else new GroupByHand(rows, seriesOf(comparison, group), group, ranges, question).write();
    rows.push([]);
  }
  return { name: "Series", rows, widths: WIDTHS, merged: [2] };
}

/** Series with a failure, cell by cell. */
function seriesOf(comparison: Comparison, group: RatioGroup): SeriesByHand[] {
  const cellOf = cellReader(comparison, group);
  const names = comparison.tests.texts("series_id");
  const found = new Map<string, { cell: string; series: string; values: number[] }>();
  for (const one of group.evidence) {
    if (one.bound) continue;
    const [cell, series] = [cellOf(one), names[one.row] ?? ""];
    const key = `${cell}|${series}`;
    const own = found.get(key) ?? { cell, series, values: [] };
    found.set(key, own);
    own.values.push(group.distribution === "lognormal" ? Math.log(one.ratio) : one.ratio);
  }
  return [...found].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, one]) => one);
}

const headed = (cells: readonly (string | null)[]): Cell[] =>
  cells.map((value) => ({ value, look: "section" }));
