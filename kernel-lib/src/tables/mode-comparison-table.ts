import { type ModeComparison, valueWords } from "../comparison";
import { percent } from "../statistics/reading";
import type { TableColumn } from "./column";
import { byCells, byColumns } from "./group-columns";
import { Table } from "./table";
import type { TableText } from "./table-text";

const P_EQUIVALENCE: TableColumn = {
  key: "p_equivalence",
  title: "p (same)",
  kind: "number",
  digits: 2,
  limit: null,
  note: "two one-sided tests of equivalence of the medians within the margin; equivalent if below 0.05",
};

/** Classes compared mode by mode with lower bounds as a table. */
export function modeComparisonTable(
  comparisons: readonly ModeComparison[],
  text: TableText,
  confidence: number = 0.95,
): Table {
  const within = comparisons[0]?.within ?? { mode: null };
  const asked = comparisons.some(({ pEquivalence }) => pEquivalence !== null);
  return new Table({
    ...text,
    rowKey: [...Object.keys(within), "other"],
    columns: [
      ...byColumns(within),
      { key: "other", title: "compared", kind: "text" },
      {
        key: "failures",
        title: "failures",
        kind: "text",
        align: "right",
        note: "tests that failed in the mode: reference, compared",
      },
      {
        key: "lower_bounds",
        title: "lower bounds",
        kind: "text",
        align: "right",
        note: "tests stopped or failed in another mode: reference, compared",
      },
      {
        key: "series",
        title: "series",
        kind: "text",
        align: "right",
        note: "series with a failure in the mode: reference, compared",
      },
      {
        key: "ratio",
        title: "ratio of medians",
        kind: "number",
        note: "median ratio of the compared class divided by that of the reference",
      },
      { key: "lower", title: `${percent(confidence)} from`, kind: "number" },
      { key: "upper", title: "to", kind: "number" },
      {
        key: "series_effect",
        title: "series effect",
        kind: "text",
        note: "included: random series effect, t with (series − 2) degrees of freedom; ignored: tests assumed independent, because a class has fewer than two series",
      },
      {
        key: "p",
        title: "p",
        kind: "number",
        digits: 2,
        limit: null,
        note: "right-censored fit of ln ratio, or Welch t where the series effect is ignored and there are no lower bounds",
      },
      {
        key: "p_adjusted",
        title: "p (Holm)",
        kind: "number",
        digits: 2,
        limit: null,
        note: "corrected for all comparisons of the table",
      },
      {
        key: "p_log_rank",
        title: "p (log-rank)",
        kind: "number",
        digits: 2,
        limit: null,
        note: "no distribution assumed, series effect ignored, not corrected",
      },
      ...(asked ? [P_EQUIVALENCE] : []),
    ],
    rows: comparisons.map((one) => ({
      ...byCells(one.within),
      other: valueWords(one.other),
      failures: one.failures.join(", "),
      lower_bounds: one.lowerBounds.join(", "),
      series: one.failedSeries.join(", "),
      series_effect: one.seriesEffect,
      ratio: one.ratio,
      lower: one.lower,
      upper: one.upper,
      p: one.p,
      p_adjusted: one.pAdjusted,
      p_log_rank: one.pLogRank,
      ...(asked ? { p_equivalence: one.pEquivalence } : {}),
    })),
  });
}
