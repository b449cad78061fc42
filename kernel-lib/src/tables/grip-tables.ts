import { valueWords, type BetterGrip, type GripMargins, type GripStrengths } from "../comparison";
import type { TableText } from "./table-text";
import { Table } from "./table";

const percent = (share: number): string => `${String(Number((100 * share).toPrecision(3)))} %`;

/**
 * Strength of grips by grip and class of bar: counts, rate of breaks, share of bar strength at a
 * break, reliable share.
 */
export function gripStrengthTable(strengths: GripStrengths, text: TableText): Table {
  const { groups, fractile, confidence, unused } = strengths;
  const by = Object.keys(groups[0]?.by ?? { grip: null });
  const bound = `at most ${percent(fractile)} of bars fail below it, ${percent(confidence)} confidence`;
  return new Table({
    ...text,
    rowKey: by,
    columns: [
      ...by.map((key) => ({ key, title: key.replaceAll("_", " "), kind: "text" as const })),
      { key: "n", title: "tests", kind: "integer" },
      {
        key: "broke",
        title: "broke in grip",
        kind: "integer",
        note: "the others ended in another way and are lower bounds",
      },
      { key: "series", title: "series", kind: "integer", note: "with a break in the grip" },
      {
        key: "rate",
        title: "rate",
        kind: "number",
        digits: 2,
        limit: null,
        note: "of these tests; depends on how far the bars were loaded",
      },
      {
        key: "rate_lower",
        title: "95 % from",
        kind: "number",
        digits: 2,
        limit: null,
        note: "exact binomial interval, series effect ignored",
      },
      { key: "rate_upper", title: "to", kind: "number", digits: 2, limit: null },
      { key: "lowest", title: "lowest break", kind: "number", note: "share of bar strength" },
      {
        key: "median",
        title: "median",
        kind: "number",
        note: "fraction of bar strength at a break, lognormal distribution with lower bounds",
      },
      { key: "cov", title: "COV", kind: "number", digits: 2, limit: null },
      {
        key: "fractile",
        title: "fractile",
        kind: "number",
        note: `${percent(fractile)} fractile, median estimate`,
      },
      {
        key: "weibull",
        title: "Weibull",
        kind: "number",
        note: "the same fractile by a Weibull distribution, series effect ignored",
      },
      {
        key: "reliable",
        title: "reliable share",
        kind: "number",
        note: `${bound}; where no bar broke, the fraction reached by enough bars without a break`,
      },
      { key: "series_effect", title: "series effect", kind: "text" },
    ],
    rows: groups.map((one) => ({
      ...Object.fromEntries(Object.entries(one.by).map(([key, value]) => [key, valueWords(value)])),
      n: one.tests.length,
      broke: one.broke,
      series: one.series,
      rate: one.rate.share,
      rate_lower: one.rate.lower,
      rate_upper: one.rate.upper,
      lowest: one.lowest,
      median: one.law?.median ?? null,
      cov: one.law?.cov ?? null,
      fractile: one.reliable?.estimate ?? null,
      weibull: one.weibullFractile,
      reliable: one.reliable?.share ?? null,
      series_effect: one.reliable === null ? "too few tests" : (one.law?.seriesEffect ?? "ignored"),
    })),
    notes: [
      ...(unused.length === 0
        ? []
        : [`Not used: ${unused.map(({ reason, n }) => `${n} ${reason}`).join("; ")}.`]),
      ...(text.notes ?? []),
    ],
  });
}

/**
 * Margin over the mode under study that each grip needs, and the embedments it allows, one bar size
 * a row.
 */
export function gripMarginTable({ margins, mode }: GripMargins, text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["grip", "size"],
    columns: [
      { key: "grip", title: "grip and bar", kind: "text" },
      { key: "size", title: "size", kind: "text" },
      {
        key: "specimen",
        title: "specimen",
        kind: "text",
        note: "test from which the embedment is varied",
      },
      { key: "share", title: "reliable share", kind: "number" },
      {
        key: "grip_kN",
        title: "grip load",
        kind: "number",
        unit: "kN",
        note: "reliable fraction times area times measured bar strength",
      },
      {
        key: "margin",
        title: "margin",
        kind: "number",
        note: `ratio of required grip load to predicted ${valueWords(mode)} load: upper bound of the 95 % fractile of the test-to-predicted ratio`,
      },
      { key: "embedment", title: "embedment up to", kind: "number", unit: "mm" },
      { key: "diameters", title: "embedment up to (d)", kind: "number", limit: null },
    ],
    rows: margins.flatMap(({ grip, margin, reaches }) =>
      reaches.map((one) => ({
        grip: grip.label,
        size: one.size,
        specimen: one.testId,
        share: grip.reliable?.share ?? null,
        grip_kN: one.grip_kN,
        margin,
        embedment: one.embedment_mm,
        diameters: one.embedment_mm === null ? null : one.embedment_mm / one.diameter_mm,
      })),
    ),
    notes: [
      ...margins.filter(({ reason }) => reason !== null).map(({ reading }) => reading),
      "A break in the grip is then possible only for one of the weakest bars in the grip or one of the strongest specimens in the mode.",
      ...(text.notes ?? []),
    ],
  });
}

/** Predicted results with a better grip, one broken test a row. */
export function betterGripTable(found: BetterGrip, text: TableText): Table {
  const modes = found.modes.map(({ mode }) => mode).filter((mode) => mode !== "bar_rupture");
  return new Table({
    ...text,
    rowKey: ["test"],
    columns: [
      { key: "test", title: "test", kind: "text" },
      { key: "grip", title: "grip", kind: "text" },
      {
        key: "share",
        title: "share",
        kind: "number",
        note: "fraction of bar strength at the break in the grip",
      },
      { key: "peak", title: "load reached", kind: "number", unit: "kN" },
      ...modes.map((mode) => ({
        key: mode,
        title: `P(${valueWords(mode)})`,
        kind: "number" as const,
        decimals: 2,
        limit: null,
      })),
      { key: "rupture", title: "P(bar rupture)", kind: "number", decimals: 2, limit: null },
      {
        key: "median",
        title: "predicted final load",
        kind: "number",
        unit: "kN",
        note: "median and central 90 %, limited to the measured mean bar strength",
      },
      { key: "lower", title: "from", kind: "number", unit: "kN" },
      { key: "upper", title: "to", kind: "number", unit: "kN" },
    ],
    rows: found.tests.map((one) => ({
      test: one.testId,
      grip: valueWords(one.grip),
      share: one.share,
      peak: one.peak_kN,
      ...Object.fromEntries(modes.map((mode) => [mode, one.modes[mode] ?? null])),
      rupture: one.rupture,
      median: one.median_kN,
      lower: one.lower_kN,
      upper: one.upper_kN,
    })),
    notes: [
      found.reading,
      ...found.notPredicted.map(({ reason, n }) => `Not predicted: ${n} (${reason}).`),
      ...found.modesLeftOut.map(({ reason, n }) => `Mode omitted in ${n}: ${reason}.`),
      ...(text.notes ?? []),
    ],
  });
}
