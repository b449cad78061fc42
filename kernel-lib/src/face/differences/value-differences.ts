import {
  capitalised,
  compareSeries,
  labelWords,
  seriesTooSmall,
  valueWords,
  type SeriesComparison,
} from "../../comparison";
import type { TestTable } from "../../dataset";
import { comparisonIntervals, intervalsOf, power, seriesPowerCurves } from "../../figures";
import { columnTitle } from "../../units";
import { percent } from "../../statistics/reading";
import { seriesComparisonTable, seriesPowerTable } from "../../tables";
import { count, fileName, knownName } from "../results/names";
import type { Setting } from "../results/result";
import type { CategoryColumn, Column, NumberColumn } from "../tests/study-row";
import { testRecords } from "../tests/test-records";
import { Differences } from "./differences";
import {
  CATEGORY_COLUMNS,
  hasReference,
  nothingWords,
  shortNames,
  versusSettings,
  type VersusOptions,
} from "./versus-options";

/** How measured values are compared with a reference. */
export interface ValueVersusOptions<
  C extends CategoryColumn = "bar_material",
> extends VersusOptions<C> {
  /** The measured value, such as `bond_stress_MPa` or `peak_load_kN`. */
  readonly value: NumberColumn;
}

/** The tests that are compared. */
export interface ComparedTests {
  readonly name: string;
  readonly table: TestTable;
  readonly columnNames: readonly string[];
  /** Grouping columns. */
  readonly columns: readonly string[];
  /** The tests in words. */
  readonly told: string;
}

/**
 * A measured value of every class against a reference, group by group: Welch's test, Fieller's
 * interval of the ratio of means and equivalence (`compareSeries`). Excluded rows are left out.
 * @throws UnknownNameError for a column or a reference that there is not
 */
export function valueDifferences<C extends CategoryColumn>(
  setting: Setting,
  tests: ComparedTests,
  reference: string,
  options: ValueVersusOptions<C>,
): Differences {
  const { margin, confidence } = versusSettings(options);
  const column = knownName<string>("column", options.column ?? "bar_material", CATEGORY_COLUMNS);
  const value = knownName("column", String(options.value), tests.columnNames);
  const records = testRecords(tests.table);
  const classes = records
    .filter(({ excluded }) => excluded === null)
    .map((row) => row[column as Column] as string | null);
  const tested = hasReference(column, reference, classes);
  const quantity = `mean ${value
    .replace(/^extra\./, "")
    .replaceAll("_", " ")
    .replace(/ (mm|mm2|MPa|GPa|kN)$/, "")}`;
  const question = {
    column,
    reference,
    within: tests.columns.filter((name) => name !== column),
    value: (row: number): number => {
      const cell = records[row]![value as Column];
      return typeof cell === "number" ? cell : NaN;
    },
    cell: (row: number, name: string) => records[row]![name as Column] ?? null,
    quantity,
    margin,
    confidence,
  };
  const lines = tested ? compareSeries(tests.table, question) : [];
  const small = tested ? seriesTooSmall(tests.table, question) : [];
  const level = Number((1 - confidence).toPrecision(12));
  const against = valueWords(reference);
  const bounded = records.filter(
    ({ excluded, failure_mode }) => excluded === null && LOWER_BOUNDS.has(failure_mode),
  ).length;
  const basis = `Welch's t, series effect ignored: a difference between series can appear as one between groups. ${tests.told}`;
  const unadjusted = `Intervals are unadjusted; the findings are Holm-adjusted for ${lines.length} comparisons, so an interval may exclude 1 without a significant difference.`;
  const title = `${columnTitle(value).title} against ${against}`;
  // Where one class is compared and lines differ in other columns, its name stands in the title.
  const compared = [...new Set(lines.map(({ other }) => valueWords(other)))];
  const only = compared.length === 1 && question.within.length > 0 ? compared[0] : undefined;
  const { cov, curves } = seriesPowerCurves(lines, level);
  return new Differences(setting, {
    name: fileName(
      quantity.replace("mean ", ""),
      "versus",
      reference,
      "by",
      ...shortNames(question.within),
    ),
    subject: `${quantity} with that of ${against}`,
    margin,
    confidence,
    lines,
    notCompared: small.length,
    nothing: nothingWords(records.length, tested, against),
    sentences: [
      ...lines.map((one) => `${whereOf(one)}${one.reading} ${one.equivalenceReading}`),
      ...small.map(
        (one) =>
          `${whereOf(one)}${valueWords(one.other)} against ${against}: no comparison. ${one.nReference} and ${count(one.nOther, "test")}; at least 3 each are needed.`,
      ),
      ...(bounded === 0 || lines.length === 0
        ? []
        : [
            `${count(bounded, "test")} stopped or broke in the grip: the value is a lower bound but is used here as measured.`,
          ]),
    ],
    tables: {
      differences: {
        title,
        caption: `${basis} ${unadjusted}`,
        make: (text) => seriesComparisonTable(lines, text, confidence),
      },
      power: {
        title: `Detectable differences from ${against}, ${quantity}`,
        caption: `Welch's test at ${percent(level)} with the scatter of each pair, before correction for several comparisons.`,
        make: (text) => seriesPowerTable(lines, margin, text, level),
      },
    },
    figures: {
      intervals: {
        title: only === undefined ? title : `${columnTitle(value).title}, ${only} over ${against}`,
        caption: `Ratio of the mean to that of ${against}: Fieller's intervals with Welch's degrees of freedom. ${tests.told} ${unadjusted}`,
        make: (text) =>
          comparisonIntervals({
            ...text,
            measure: `Ratio of means with ${percent(confidence)} interval (–)`,
            comparisons: intervalsOf(lines, level).map((one, k) =>
              only === undefined ? one : { ...one, label: labelOf(lines[k]!) },
            ),
          }),
      },
      power: {
        title: `Power to detect a lower ${quantity}`,
        ...(Number.isNaN(cov)
          ? {}
          : { subtitle: `COV ${percent(cov, 0)} in both groups (median of ${against})` }),
        caption: `Welch's test, two-sided, ${percent(level)}, before correction for several comparisons.`,
        make: (text) => power({ ...text, xTitle: "Tests in each of two groups (–)", curves }),
      },
    },
  });
}

/** Observed modes that say only that the strength was not reached. */
const LOWER_BOUNDS = new Set<string>(["stopped", "rupture_at_grip"]);

function labelOf({ within }: Pick<SeriesComparison, "within">): string {
  return Object.entries(within)
    .map(([name, cell]) => labelWords(name, cell))
    .join(", ");
}

function whereOf(one: Pick<SeriesComparison, "within">): string {
  const words = labelOf(one);
  return words === "" ? "" : `${capitalised(words)}: `;
}
