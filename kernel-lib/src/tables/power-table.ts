import { valueWords, type ModeComparison, type SeriesComparison } from "../comparison";
import { sampleSizeForDifference } from "../statistics";
import { percent } from "../statistics/reading";
import type { TableColumn, TableRow } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

type Compared = Pick<
  ModeComparison | SeriesComparison,
  "within" | "other" | "detectable" | "powerForMargin"
>;

function powerColumns(margin: number): TableColumn[] {
  return [
    {
      key: "detectable",
      title: "detectable",
      kind: "number",
      digits: 2,
      limit: null,
      note: "smallest difference detected with power 0.8, as a fraction of the reference",
    },
    {
      key: "power_for_margin",
      title: `power for ${percent(margin)}`,
      kind: "number",
      digits: 2,
      limit: null,
      note: "power to detect a difference equal to the margin, before correction for several comparisons",
    },
  ];
}

function whereColumns(lines: readonly Compared[]): TableColumn[] {
  return [...Object.keys(lines[0]?.within ?? {}), "other"].map((key) => ({
    key,
    title: key === "other" ? "compared" : key.replaceAll("_", " "),
    kind: "text" as const,
  }));
}

function rowOf({ within, other, detectable, powerForMargin }: Compared): TableRow {
  return {
    ...Object.fromEntries(Object.entries(within).map(([key, value]) => [key, valueWords(value)])),
    other: valueWords(other),
    detectable,
    power_for_margin: powerForMargin,
  };
}

/** What comparisons of ratios could have found, from the standard error of each. */
export function modePowerTable(
  lines: readonly ModeComparison[],
  margin: number,
  text: TableText,
): Table {
  const columns = whereColumns(lines);
  return new Table({
    ...text,
    rowKey: columns.map(({ key }) => key),
    columns: [
      ...columns,
      { key: "failures", title: "failures", kind: "text", align: "right", note: FAILURES },
      { key: "series", title: "series", kind: "text", align: "right", note: SERIES },
      {
        key: "standard_error",
        title: "standard error",
        kind: "number",
        digits: 2,
        limit: null,
        note: "of the difference in mean ln ratio",
      },
      ...powerColumns(margin),
    ],
    rows: lines.map((one) => ({
      ...rowOf(one),
      failures: one.failures.join(", "),
      series: one.failedSeries.join(", "),
      standard_error: one.standardError,
    })),
  });
}

const FAILURES = "tests that failed in the mode: reference, compared";
const SERIES = "series with a failure in the mode: reference, compared";

/**
 * What comparisons of measured values could have found by Welch's test, and the tests needed in
 * each group to find a difference of the margin with power 0.8 at the scatter seen.
 */
export function seriesPowerTable(
  lines: readonly SeriesComparison[],
  margin: number,
  text: TableText,
  level: number = 0.05,
): Table {
  const columns = whereColumns(lines);
  return new Table({
    ...text,
    rowKey: columns.map(({ key }) => key),
    columns: [
      ...columns,
      { key: "n", title: "n", kind: "text", align: "right", note: "reference, compared" },
      { key: "cov_reference", title: "COV, reference", kind: "number", digits: 2 },
      { key: "cov_other", title: "COV, compared", kind: "number", digits: 2 },
      ...powerColumns(margin),
      {
        key: "tests_needed",
        title: "tests needed",
        kind: "integer",
        note: "in each group, to detect a difference equal to the margin with power 0.8",
      },
    ],
    rows: lines.map((one) => ({
      ...rowOf(one),
      n: `${one.nReference}, ${one.nOther}`,
      cov_reference: one.sdReference / one.meanReference,
      cov_other: one.sdOther / one.meanOther,
      tests_needed:
        one.powerForMargin === null
          ? null
          : sampleSizeForDifference({
              difference: margin * one.meanReference,
              sdA: one.sdReference,
              sdB: one.sdOther,
              level,
            }),
    })),
  });
}
