import type { RatioGroup } from "../comparison";
import type { TableColumn, TableRow } from "./column";
import { Table } from "./table";
import type { TableText } from "./table-text";
import { byColumns, byCells } from "./group-columns";

/**
 * Columns of `ratioGroupTable` that a narrow page shows: counts and moments, or bounds and
 * verdicts.
 */
export type RatioGroupPart = "moments" | "verdicts";
const PARTS: Readonly<Record<RatioGroupPart, readonly string[]>> = {
  moments: [
    "n",
    "n_lower_bounds",
    "series",
    "mean",
    "cov",
    "min",
    "mean_minus_3sd",
    "share_below_1",
    "not_judged",
  ],
  verdicts: [
    "n",
    "as_tested_lower",
    "as_tested_verdict",
    "fractile",
    "lower",
    "upper",
    "icc",
    "verdict",
  ],
};

/**
 * The groups of a comparison as a table: counts, moments, bounds of the fractile and both verdicts;
 * or one part of it.
 */
export function ratioGroupTable(
  groups: readonly RatioGroup[],
  text: TableText,
  part?: RatioGroupPart,
): Table {
  const by = groups[0]?.by ?? { group: null };
  const shown = (key: string): boolean =>
    part === undefined || key in by || PARTS[part].includes(key);
  const columns: TableColumn[] = [
    ...byColumns(by),
    { key: "n", title: "n", kind: "integer", note: "tests that failed in the mode" },
    {
      key: "n_lower_bounds",
      title: "lower bounds",
      kind: "integer",
      note: "tests stopped or failed in another mode",
    },
    {
      key: "series",
      title: "series",
      kind: "integer",
      note: "with at least one failure in the mode",
    },
    { key: "mean", title: "mean", kind: "number" },
    {
      key: "cov",
      title: "COV",
      kind: "number",
      digits: 2,
      note: "coefficient of variation, standard deviation (SD) divided by mean",
    },
    { key: "min", title: "min.", kind: "number" },
    { key: "mean_minus_3sd", title: "mean − 3 SD", kind: "number" },
    {
      key: "as_tested_lower",
      title: "r_k, as tested",
      kind: "number",
      note: "characteristic ratio of the series tested, series effect ignored: lower one-sided bound of the fractile at the stated confidence (5 % at 90 % unless stated), mean − K SD without lower bounds",
    },
    { key: "as_tested_verdict", title: "as tested", kind: "verdict" },
    {
      key: "fractile",
      title: "fractile",
      kind: "number",
      note: "5 % fractile in general (for a further series, series effect included): median estimate, in the layout cell that decides",
    },
    {
      key: "lower",
      title: "r_k, in general",
      kind: "number",
      note: "lower one-sided bound at the same confidence: the characteristic ratio",
    },
    {
      key: "upper",
      title: "upper bound",
      kind: "number",
      note: "upper one-sided bound, simultaneous over the layout cells",
    },
    {
      key: "icc",
      title: "ICC",
      kind: "number",
      decimals: 2,
      limit: null,
      note: "intraclass correlation: estimated between-series share of the variance within cells; imprecise with few series",
    },
    {
      key: "share_below_1",
      title: "below 1",
      kind: "number",
      digits: 2,
      limit: null,
      note: "share of the failures",
    },
    {
      key: "not_judged",
      title: "not judged",
      kind: "integer",
      note: "pairs of test and provision outside the scope; the account of rows gives reasons",
    },
    {
      key: "verdict",
      title: "in general",
      kind: "verdict",
      note: "meets: lower bound at least 1.0; falls short: upper bound below 1.0; undecided: neither",
    },
  ];
  const rows = groups.map((group) => ({
    ...byCells(group.by),
    n: group.n,
    n_lower_bounds: group.lowerBounds,
    series: group.series,
    mean: group.mean,
    cov: group.cov,
    min: group.min,
    mean_minus_3sd: group.meanMinus3Sd,
    as_tested_lower: group.asTested.lower,
    as_tested_verdict: group.asTested.verdict,
    fractile: group.fractile,
    lower: group.lower,
    upper: group.upper,
    icc: group.inGeneral.icc,
    share_below_1: group.shareBelow1,
    not_judged: group.notJudged.reduce((sum, { n }) => sum + n, 0),
    verdict: group.verdict,
  }));
  const cut = (row: Record<string, unknown>): TableRow =>
    Object.fromEntries(Object.entries(row).filter(([key]) => shown(key))) as TableRow;
  return new Table({
    ...text,
    rowKey: Object.keys(by),
    columns: columns.filter(({ key }) => shown(key)),
    rows: rows.map(cut),
  });
}
