import { type SeriesComparison, valueWords } from "../comparison";
import { percent } from "../statistics/reading";
import { Table } from "./table";
import type { TableText } from "./table-text";
import { byColumns, byCells } from "./group-columns";

/** Direct comparisons of series as a table. */
export function seriesComparisonTable(
  comparisons: readonly SeriesComparison[],
  text: TableText,
  confidence: number = 0.95,
): Table {
  const within = comparisons[0]?.within ?? {};
  return new Table({
    ...text,
    rowKey: [...Object.keys(within), "other"],
    columns: [
      ...byColumns(within),
      { key: "reference", title: "reference", kind: "text" },
      { key: "other", title: "compared", kind: "text" },
      { key: "n", title: "n", kind: "text", align: "right" },
      { key: "ratio", title: "ratio of means", kind: "number" },
      { key: "lower", title: `${percent(confidence)} from`, kind: "number" },
      { key: "upper", title: "to", kind: "number" },
      {
        key: "p",
        title: "p (Welch)",
        kind: "number",
        digits: 2,
        limit: null,
        note: "series effect ignored: tests assumed independent",
      },
      {
        key: "p_adjusted",
        title: "p (Holm)",
        kind: "number",
        digits: 2,
        limit: null,
        note: "corrected for all comparisons of the table",
      },
      { key: "hedges_g", title: "Hedges g", kind: "number", digits: 2, limit: null },
      {
        key: "detectable",
        title: "detectable",
        kind: "number",
        digits: 2,
        limit: null,
        note: "smallest difference of means that Welch's test detects with power 0.8, as a fraction of the reference mean",
      },
      {
        key: "power_for_margin",
        title: "power",
        kind: "number",
        digits: 2,
        limit: null,
        note: "to detect a difference equal to the margin, with the observed scatter",
      },
      {
        key: "p_equivalence",
        title: "p (same)",
        kind: "number",
        digits: 2,
        limit: null,
        note: "two one-sided tests of equivalence of the means within the margin; equivalent if below 0.05",
      },
    ],
    rows: comparisons.map((one) => ({
      ...byCells(one.within),
      reference: valueWords(one.reference),
      other: valueWords(one.other),
      n: `${one.nReference}, ${one.nOther}`,
      ratio: one.ratio,
      lower: one.ratioLower,
      upper: one.ratioUpper,
      p: one.p,
      p_adjusted: one.pAdjusted,
      hedges_g: one.hedgesG,
      detectable: one.detectable,
      power_for_margin: one.powerForMargin,
      p_equivalence: one.pEquivalence,
    })),
  });
}
