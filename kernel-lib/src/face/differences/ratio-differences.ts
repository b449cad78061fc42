import {
  classStrata,
  compareClasses,
  labelWords,
  valueWords,
  type ClassStratum,
} from "../../comparison";
import type { Comparison as Pairs } from "../../comparison";
import { comparisonIntervals, modeIntervalsOf, modePowerCurves, power } from "../../figures";
import { percent } from "../../statistics/reading";
import { modeComparisonTable, modePowerTable } from "../../tables";
import { fileName, knownName } from "../results/names";
import type { Setting } from "../results/result";
import type { CategoryColumn } from "../tests/study-row";
import { Differences } from "./differences";
import {
  CATEGORY_COLUMNS,
  hasReference,
  nothingWords,
  versusSettings,
  type VersusOptions,
} from "./versus-options";

/** The ratios that are compared. */
export interface ComparedRatios {
  readonly name: string;
  readonly parts: readonly { readonly pairs: Pairs }[];
  /** Grouping columns. */
  readonly columns: readonly string[];
  /** Codes and level, as captions print them. */
  readonly basis: string;
}

/**
 * Test-to-predicted ratios of every class against a reference, group by group, lower bounds treated
 * as right-censored (`compareClasses`).
 * @throws UnknownNameError for a column or a reference that there is not
 */
export function ratioDifferences<C extends CategoryColumn>(
  setting: Setting,
  ratios: ComparedRatios,
  reference: string,
  options: VersusOptions<C>,
): Differences {
  const { margin, confidence } = versusSettings(options);
  const column = knownName<string>("column", options.column ?? "bar_material", CATEGORY_COLUMNS);
  const values = ratios.parts.flatMap(({ pairs }) => pairs.tests.texts(column));
  const tested = hasReference(column, reference, values);
  const by = ratios.columns.filter((name) => name !== column && name !== "code");
  const named = ratios.columns.includes("code") || ratios.parts.length > 1;
  const strata = ratios.parts.flatMap(({ pairs }) =>
    classStrata(pairs, by).map((one): ClassStratum => ({
      ...one,
      within: named ? { code: pairs.code.id, ...one.within } : one.within,
    })),
  );
  const lines = tested ? compareClasses(strata, { column, reference, confidence, margin }) : [];
  const known = lines.filter(({ ratio }) => ratio !== null);
  const level = Number((1 - confidence).toPrecision(12));
  const against = valueWords(reference);
  const where = by.map((name) => name.replaceAll("_", " ")).join(", ");
  const title = `Test-to-predicted ratio against ${against}${where === "" ? "" : ` by ${where}`}`;
  const alone = (tested ? strata : [])
    .filter((one) => !lines.some(({ within }) => within === one.within))
    .map(
      ({ within }) =>
        `${Object.entries(within)
          .map(([name, value]) => labelWords(name, value))
          .join(", ")}: only ${against} was tested, so there is nothing to compare.`,
    );
  const unadjusted = `Intervals are unadjusted; the findings are Holm-adjusted for ${known.length} comparisons, so an interval may exclude 1 without a significant difference.`;
  const caption = `Ratio of medians from right-censored fits of ln ratio, series effect included where each class has at least two series with a failure; n: failures in the mode. ${ratios.basis}. ${unadjusted}`;
  return new Differences(setting, {
    name: fileName(ratios.name, "versus", reference),
    subject: `median test-to-predicted ratio with that of ${against}`,
    margin,
    confidence,
    lines,
    notCompared: lines.length - known.length,
    nothing: nothingWords(values.length, tested, against),
    sentences: [
      ...lines.map(({ reading, equivalenceReading }) =>
        [reading, equivalenceReading].filter(Boolean).join(" "),
      ),
      ...alone,
    ],
    tables: {
      differences: {
        title: `${title}, ${ratios.basis}`,
        caption,
        make: (text) => modeComparisonTable(lines, text, confidence),
      },
      power: {
        title: `Detectable differences from ${against}, ${ratios.basis}`,
        caption: `Two-sided test at ${percent(level)} with the standard error of each comparison, before correction for several comparisons.`,
        make: (text) => modePowerTable(known, margin, text),
      },
    },
    figures: {
      intervals: {
        title,
        subtitle: ratios.basis,
        caption,
        make: (text) =>
          comparisonIntervals({
            ...text,
            measure: `Ratio of medians with ${percent(confidence)} interval (–)`,
            comparisons: modeIntervalsOf(known, level),
          }),
      },
      power: {
        title: `Power to detect a median ratio lower than that of ${against}`,
        subtitle: ratios.basis,
        caption: `From the standard error of each comparison, before correction for several comparisons. With more than six comparisons, the most precise, the median and the least precise are drawn; the table gives the others.`,
        make: (text) =>
          power({
            ...text,
            xTitle: "True reduction of the median ratio (%)",
            curves: modePowerCurves(known, confidence),
          }),
      },
    },
  });
}
