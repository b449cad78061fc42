import { type Comparison, type ModeComparison, type RatioGroup, type SeriesComparison, valueWords } from "../comparison";
import type { BeforeAfter, DerivedFactor } from "../proposals";
import type { TableColumn } from "./column";
import { Table } from "./table";

/** What a table of results is told beside its data. */
export interface TableText {
  readonly id: string;
  readonly title: string;
  readonly caption?: string;
  readonly notes?: readonly string[];
}

function byColumns(by: Readonly<Record<string, unknown>>): TableColumn[] {
  return Object.keys(by).map((key) => ({ key, title: key.replaceAll("_", " "), kind: "text" as const }));
}

function byCells(by: Readonly<Record<string, string | number | null>>): Record<string, string> {
  return Object.fromEntries(Object.entries(by).map(([key, value]) => [key, valueWords(value)]));
}

/** The groups of a comparison as a table: counts, moments, characteristic ratio, verdict and its reason. */
export function ratioGroupTable(groups: readonly RatioGroup[], text: TableText): Table {
  const by = groups[0]?.by ?? { group: null };
  return new Table({
    ...text,
    rowKey: Object.keys(by),
    columns: [
      ...byColumns(by),
      { key: "n", title: "n", kind: "integer", note: "tests that failed in the mode" },
      { key: "n_censored", title: "lower bounds", kind: "integer", note: "tests that failed otherwise, so that their ratio is only a lower bound" },
      { key: "series", title: "series", kind: "integer", note: "in which a test failed in the mode" },
      { key: "mean", title: "mean", kind: "number" },
      { key: "cov", title: "COV", kind: "number", digits: 2, note: "coefficient of variation, standard deviation (SD) over mean" },
      { key: "min", title: "least", kind: "number" },
      { key: "mean_minus_3sd", title: "mean − 3 SD", kind: "number" },
      { key: "k", title: "K", kind: "number", digits: 4, limit: null, note: "exact one-sided tolerance factor; blank where lower bounds enter" },
      { key: "characteristic_of_tests", title: "char. by tests", kind: "number", note: "characteristic ratio, 5 % fractile at 90 % confidence unless stated, tests taken as independent: mean − K SD without lower bounds" },
      { key: "characteristic_by_series", title: "char. by series", kind: "number", note: "the same counted by series, whose tests share concrete, hole and day: the verdict rests on it, and on the one by tests where it is blank (fewer than 3 series)" },
      { key: "correlation", title: "ICC", kind: "number", decimals: 2, limit: null, note: "intraclass correlation: likeliest share of the variance that lies between series; hardly known with few series" },
      { key: "share_below_1", title: "below 1", kind: "number", digits: 2, limit: null, note: "share of the tests that failed in the mode" },
      { key: "verdict", title: "verdict", kind: "verdict" },
    ],
    rows: groups.map((group) => ({
      ...byCells(group.by), n: group.n, n_censored: group.nCensored, series: group.seriesFailed, mean: group.mean, cov: group.cov, min: group.min, mean_minus_3sd: group.meanMinus3Sd, k: group.k,
      characteristic_of_tests: group.characteristicOfTests, characteristic_by_series: group.bySeries?.characteristic ?? null, correlation: group.bySeries?.correlation ?? null, share_below_1: group.shareBelow1, verdict: group.verdict,
    })),
  });
}

/** Direct comparisons of series as a table. */
export function seriesComparisonTable(comparisons: readonly SeriesComparison[], text: TableText): Table {
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
      { key: "lower", title: "95 % from", kind: "number" },
      { key: "upper", title: "to", kind: "number" },
      { key: "p", title: "p (Welch)", kind: "number", digits: 2, limit: null, note: "series effect ignored: tests assumed independent" },
      { key: "p_adjusted", title: "p (Holm)", kind: "number", digits: 2, limit: null, note: "corrected for all comparisons of the table" },
      { key: "hedges_g", title: "Hedges g", kind: "number", digits: 2, limit: null },
      { key: "detectable", title: "detectable", kind: "number", digits: 2, limit: null, note: "smallest difference of means that Welch's test finds with power 0.8, as a share of the reference mean" },
      { key: "power_for_margin", title: "power", kind: "number", digits: 2, limit: null, note: "to find a difference of the margin, with the scatter seen" },
      { key: "p_equivalence", title: "p (same)", kind: "number", digits: 2, limit: null, note: "two one-sided tests that the means agree within the margin; below 0.05 they do" },
    ],
    rows: comparisons.map((one) => ({
      ...byCells(one.within), reference: valueWords(one.reference), other: valueWords(one.other), n: `${one.nReference}, ${one.nOther}`, ratio: one.ratio, lower: one.ratioLower, upper: one.ratioUpper,
      p: one.p, p_adjusted: one.pAdjusted, hedges_g: one.hedgesG, detectable: one.detectable, power_for_margin: one.powerForMargin, p_equivalence: one.pEquivalence,
    })),
  });
}

/** Classes compared mode by mode with lower bounds as a table. */
export function modeComparisonTable(comparisons: readonly ModeComparison[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["mode", "other"],
    columns: [
      { key: "mode", title: "mode", kind: "text" },
      { key: "other", title: "compared", kind: "text" },
      { key: "failures", title: "failures", kind: "text", align: "right", note: "tests that failed in the mode: reference, compared" },
      { key: "bounds", title: "lower bounds", kind: "text", align: "right", note: "tests stopped or failed in another mode: reference, compared" },
      { key: "series", title: "series", kind: "text", align: "right", note: "series with a failure in the mode: reference, compared" },
      { key: "ratio", title: "ratio of medians", kind: "number", note: "median ratio of the compared over that of the reference" },
      { key: "lower", title: "95 % from", kind: "number" },
      { key: "upper", title: "to", kind: "number" },
      { key: "series_effect", title: "series effect", kind: "text", note: "included: random series effect, t on series − 2; ignored: tests assumed independent, since a class has fewer than two series" },
      { key: "p", title: "p", kind: "number", digits: 2, limit: null, note: "right-censored fit of ln ratio, or Welch t where the series effect is ignored and there are no lower bounds" },
      { key: "p_adjusted", title: "p (Holm)", kind: "number", digits: 2, limit: null, note: "corrected for all comparisons of the table" },
      { key: "p_log_rank", title: "p (log-rank)", kind: "number", digits: 2, limit: null, note: "no distribution assumed, series effect ignored, not corrected" },
    ],
    rows: comparisons.map((one) => ({
      mode: valueWords(one.mode), other: valueWords(one.other), failures: one.failures.join(", "), bounds: one.bounds.join(", "), series: one.failedSeries.join(", "), series_effect: one.seriesEffect, ratio: one.ratio, lower: one.lower, upper: one.upper,
      p: one.p, p_adjusted: one.pAdjusted, p_log_rank: one.pLogRank,
    })),
  });
}

/** Derived factors as a table; a document that lists their warnings elsewhere leaves that wide column out. */
export function factorTable(factors: readonly DerivedFactor[], text: TableText, { warnings = true }: { readonly warnings?: boolean } = {}): Table {
  return new Table({
    ...text,
    rowKey: ["label"],
    columns: [
      { key: "label", title: "group", kind: "text" },
      { key: "n", title: "n", kind: "integer" },
      { key: "n_censored", title: "lower bounds", kind: "integer" },
      { key: "series", title: "series", kind: "integer" },
      { key: "correlation", title: "ICC", kind: "number", decimals: 2, limit: null, note: "intraclass correlation: likeliest share of the variance that lies between series; hardly known with few series" },
      { key: "exact_of_tests", title: "as independent", kind: "number", note: "factor if the tests are taken as independent of each other" },
      { key: "exact", title: "factor", kind: "number", note: "counted by series, whose tests share concrete, hole and day; the rounded one rests on it" },
      { key: "lower", title: "95 % from", kind: "number" },
      { key: "upper", title: "to", kind: "number" },
      { key: "rounded", title: "rounded", kind: "number", digits: 2 },
      { key: "least_without_study", title: "least without a study", kind: "number" },
      ...(warnings ? [{ key: "warnings", title: "warnings", kind: "text" as const }] : []),
    ],
    rows: factors.map((factor) => ({
      label: factor.label, n: factor.n, n_censored: factor.nCensored, series: factor.series, correlation: factor.correlation, exact_of_tests: factor.exactOfTests, exact: factor.exact, lower: factor.lower, upper: factor.upper, rounded: factor.rounded,
      least_without_study: factor.withoutStudy.reduce<number | null>((least, { factor: one }) => (one === null ? least : least === null ? one : Math.min(least, one)), null),
      ...(warnings ? { warnings: factor.status === "derived" ? factor.warnings.join("; ") : factor.reading } : {}),
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
      { key: "before", title: "characteristic ratio, present", kind: "number" },
      { key: "after", title: "characteristic ratio, proposed", kind: "number" },
      { key: "mean_before", title: "mean ratio, present", kind: "number" },
      { key: "mean_after", title: "mean ratio, proposed", kind: "number" },
      { key: "verdict_before", title: "verdict, present", kind: "verdict" },
      { key: "verdict_after", title: "verdict, proposed", kind: "verdict" },
    ],
    rows: change.groups.map(({ by: keys, before, after }) => ({
      ...byCells(keys), n: before.n, before: before.characteristic, after: after.characteristic, mean_before: before.mean, mean_after: after.mean, verdict_before: before.verdict, verdict_after: after.verdict,
    })),
  });
}

/** Tests that gave no ratio, counted by reason. */
export function unusedTable(comparison: Comparison, text: TableText): Table {
  const counts = new Map<string, { tests: number; first: string }>();
  for (const { row, reason } of comparison.unused) {
    const known = counts.get(reason);
    if (known) known.tests += 1;
    else counts.set(reason, { tests: 1, first: comparison.tests.text(row, "test_id") ?? "" });
  }
  return new Table({
    ...text,
    rowKey: ["reason"],
    columns: [
      { key: "reason", title: "reason", kind: "text" },
      { key: "tests", title: "tests", kind: "integer" },
      { key: "first", title: "first test", kind: "text" },
    ],
    rows: [...counts].sort((a, b) => b[1].tests - a[1].tests || (a[0] < b[0] ? -1 : 1)).map(([reason, { tests, first }]) => ({ reason, tests, first })),
  });
}
