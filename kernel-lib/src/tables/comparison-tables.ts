import {
  type Comparison,
  type ModeComparison,
  type RatioGroup,
  type SeriesComparison,
  valueWords,
} from "../comparison";
import type { BeforeAfter } from "../proposals";
import { percent } from "../statistics/reading";
import type { TableColumn, TableRow } from "./column";
import { Table } from "./table";

/** What a table of results is told beside its data. */
export interface TableText {
  readonly id: string;
  readonly title: string;
  readonly caption?: string;
  readonly notes?: readonly string[];
}

function byColumns(by: Readonly<Record<string, unknown>>): TableColumn[] {
  return Object.keys(by).map((key) => ({
    key,
    title: key.replaceAll("_", " "),
    kind: "text" as const,
  }));
}

function byCells(by: Readonly<Record<string, string | number | null>>): Record<string, string> {
  return Object.fromEntries(Object.entries(by).map(([key, value]) => [key, valueWords(value)]));
}

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
    { key: "series", title: "series", kind: "integer", note: "in which a test failed in the mode" },
    { key: "mean", title: "mean", kind: "number" },
    {
      key: "cov",
      title: "COV",
      kind: "number",
      digits: 2,
      note: "coefficient of variation, standard deviation (SD) over mean",
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
      note: "its lower one-sided bound at the same confidence, the characteristic ratio",
    },
    {
      key: "upper",
      title: "upper bound",
      kind: "number",
      note: "its upper one-sided bound, simultaneous over the layout cells",
    },
    {
      key: "icc",
      title: "ICC",
      kind: "number",
      decimals: 2,
      limit: null,
      note: "intraclass correlation: estimated share of the variance within cells that lies between series; imprecise with few series",
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
      note: "pairs of test and provision outside the scope; reasons in the account of rows",
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
        note: "smallest difference of means that Welch's test finds with power 0.8, as a share of the reference mean",
      },
      {
        key: "power_for_margin",
        title: "power",
        kind: "number",
        digits: 2,
        limit: null,
        note: "to find a difference of the margin, with the scatter seen",
      },
      {
        key: "p_equivalence",
        title: "p (same)",
        kind: "number",
        digits: 2,
        limit: null,
        note: "two one-sided tests that the means agree within the margin; below 0.05 they do",
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

const P_EQUIVALENCE: TableColumn = {
  key: "p_equivalence",
  title: "p (same)",
  kind: "number",
  digits: 2,
  limit: null,
  note: "two one-sided tests that the medians agree within the margin; below 0.05 they do",
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
        key: "bounds",
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
        note: "median ratio of the compared over that of the reference",
      },
      { key: "lower", title: `${percent(confidence)} from`, kind: "number" },
      { key: "upper", title: "to", kind: "number" },
      {
        key: "series_effect",
        title: "series effect",
        kind: "text",
        note: "included: random series effect, t on series − 2; ignored: tests assumed independent, since a class has fewer than two series",
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
      bounds: one.bounds.join(", "),
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

/** Before and after a proposal, group by group. */
export function beforeAfterTable(change: BeforeAfter, text: TableText): Table {
  const by = change.groups[0]?.by ?? { group: null };
  return new Table({
    ...text,
    rowKey: Object.keys(by),
    columns: [
      ...byColumns(by),
      { key: "n", title: "n", kind: "integer" },
      {
        key: "before",
        title: "r_k, present",
        kind: "number",
        note: "characteristic ratio in general: lower one-sided bound of the 5 % fractile, series effect included",
      },
      { key: "upper_before", title: "upper bound, present", kind: "number" },
      { key: "after", title: "r_k, proposed", kind: "number" },
      { key: "upper_after", title: "upper bound, proposed", kind: "number" },
      { key: "mean_before", title: "mean ratio, present", kind: "number" },
      { key: "mean_after", title: "mean ratio, proposed", kind: "number" },
      { key: "verdict_before", title: "verdict, present", kind: "verdict" },
      { key: "verdict_after", title: "verdict, proposed", kind: "verdict" },
    ],
    rows: change.groups.map(({ by: keys, before, after }) => ({
      ...byCells(keys),
      n: before.n,
      before: before.lower,
      upper_before: before.upper,
      after: after.lower,
      upper_after: after.upper,
      mean_before: before.mean,
      mean_after: after.mean,
      verdict_before: before.verdict,
      verdict_after: after.verdict,
    })),
  });
}

/** Tests that gave no ratio, counted by status and reason. */
export function unusedTable(comparison: Comparison, text: TableText): Table {
  const counts = new Map<
    string,
    { status: string; reason: string; tests: number; first: string }
  >();
  for (const { row, status, reason } of comparison.unused) {
    const known = counts.get(`${status} ${reason}`);
    if (known) known.tests += 1;
    else
      counts.set(`${status} ${reason}`, {
        status,
        reason,
        tests: 1,
        first: comparison.tests.text(row, "test_id") ?? "",
      });
  }
  return new Table({
    ...text,
    rowKey: ["status", "reason"],
    columns: [
      { key: "status", title: "status", kind: "text" },
      { key: "reason", title: "reason", kind: "text" },
      { key: "tests", title: "tests", kind: "integer" },
      { key: "first", title: "first test", kind: "text" },
    ],
    rows: [...counts]
      .sort((a, b) => b[1].tests - a[1].tests || (a[0] < b[0] ? -1 : 1))
      .map(([, counted]) => counted),
  });
}
