import { counted, percent, pWords, significant } from "../../statistics/reading";
import { capitalised } from "../labels";
import type { TrendByGroup } from "./trend";
import type { TrendLine, TrendQuestion } from "./trend-line";
import { trendOutliers } from "./outliers";
import type { TrendPrediction } from "./predictions";

/** How the variable and its unit stand in sentences. */
export interface TrendWords {
  readonly response: string;
  readonly variable: string;
  readonly unit: string | null;
  /** The level that the values are held against; null or left out for none. */
  readonly level?: number | null;
}

/** What the lines say in one or two sentences: slopes, and what the values asked for would give. */
export function trendAnswer(trend: TrendByGroup, words: TrendWords): string {
  const { lines, question, predictions } = trend;
  const known = lines.filter(({ slope }) => slope !== null);
  if (known.length === 0)
    return `No line of the ${words.response} along ${words.variable} can be fitted: ${lines[0]?.reason ?? "no rows"}.`;
  const level = 1 - (question.confidence ?? 0.95);
  const changed = known.filter(({ slope }) => slope!.p !== null && slope!.p < level);
  const told = changed
    .slice(0, MOST_GROUPS)
    .map((line) => `${line.group} ${changeWords(line, question.scale, words.unit)}`);
  if (changed.length > told.length) told.push(`${changed.length - told.length} more changes`);
  const others = known.length - changed.length;
  const slopes =
    changed.length === 0
      ? `no significant slope in ${known.length === 1 ? "the one group" : `any of ${known.length} groups`}`
      : told.join(", ") + (others > 0 ? `; no significant slope in the other ${others}` : "");
  const effect = question.seriesEffect ? "series effect included" : "series effect ignored";
  const ends = known.length > MOST_GROUPS ? [] : endsOf(predictions, question, words);
  return `${capitalised(words.response)} along ${words.variable}, ${effect}: ${[slopes, ...ends].join("; ")}.`;
}

/** Readings of the lines at the least and the largest value asked for. */
function endsOf(
  predictions: readonly TrendPrediction[],
  { at, confidence = 0.95 }: TrendQuestion,
  { unit }: TrendWords,
): string[] {
  const ends = [...new Set([Math.min(...at), Math.max(...at)])].filter(Number.isFinite);
  return ends.map((x, end) => {
    const of = predictions.filter((one) => one.x === x);
    const told = of.map(({ group, fitted, lower, upper }, k) => {
      const interval = end + k === 0 ? `${percent(confidence)} CI ` : "";
      return `${significant(fitted)} for ${group} (${interval}${significant(lower)} to ${significant(upper)})`;
    });
    return `at ${withUnit(x, unit)}${beyondWords(of)} the lines give ${told.join(", ")}`;
  });
}

function beyondWords(of: readonly TrendPrediction[]): string {
  if (of.every(({ extrapolated }) => extrapolated)) return ", beyond the range tested,";
  return of.some(({ extrapolated }) => extrapolated) ? ", in part beyond the range tested," : "";
}

/** Values at sizes are told of at most so many groups; of more they are in the table. */
const MOST_GROUPS = 4;

/** One finding for each line and each family. */
export function trendFindings(trend: TrendByGroup, words: TrendWords): string[] {
  const { lines, families, question } = trend;
  const bounds = lines.reduce((sum, { lowerBounds }) => sum + lowerBounds, 0);
  return [
    ...lines.map((line) => slopeFinding(line, trend, words)),
    ...families.flatMap(({ family, model, reason }) => {
      const where = family === "" ? "" : `${capitalised(family)}: `;
      if (model === null) return families.length === 1 ? [`${where}${capitalised(reason)}.`] : [];
      const { p } = model.equalSlopes;
      return [
        p < 1 - (question.confidence ?? 0.95)
          ? `${where}The slopes of the groups differ significantly (F test, ${pWords(p)}).`
          : `${where}No significant difference of slopes was found (F test, ${pWords(p)}). This does not show that they are equal.`,
      ];
    }),
    ...characteristicFindings(trend, words),
    outlierFinding(trend),
    ...(bounds === 0
      ? []
      : [
          `${bounds} lower bounds are omitted from the lines: where strong specimens failed in another mode, a line is too low.`,
        ]),
  ];
}

/** Where the bound of the 5 % fractile lies at the values asked for, against the level. */
function characteristicFindings(
  { predictions, question, lines }: TrendByGroup,
  { unit, level = null }: TrendWords,
): string[] {
  if (level === null || lines.length > MOST_GROUPS) return [];
  const effect = question.seriesEffect ? "series effect included" : "series effect ignored";
  return question.at.flatMap((x) => {
    const of = predictions.filter((one) => one.x === x && one.characteristic !== null);
    if (of.length === 0) return [];
    const below = of.filter(({ characteristic }) => characteristic! < level);
    const told = of.map(
      ({ group, characteristic }) => `${comparedText(characteristic!, level)} for ${group}`,
    );
    const where = `At ${withUnit(x, unit)}${beyondWords(of)}`;
    return [
      `${where} r_k on the line is ${told.join(", ")}${of.length === 1 ? ", " : "; "}${whichBelow(below, of)} below ${level.toFixed(1)} (${effect}).`,
    ];
  });
}

function whichBelow(below: readonly TrendPrediction[], of: readonly TrendPrediction[]): string {
  if (of.length === 1) return below.length === 1 ? "which is" : "which is not";
  if (below.length === of.length) return "all";
  return below.length === 0 ? "none" : below.map(({ group }) => group).join(" and ");
}

/** Three digits, or as many more as keep the number on its side of the level. */
function comparedText(value: number, level: number): string {
  const text = significant(value);
  return Math.sign(Number(text) - level) === Math.sign(value - level) ? text : String(value);
}

function outlierFinding(trend: TrendByGroup): string {
  const limits = "studentized residual above 3 or Cook's distance above 1";
  const found = trendOutliers(trend);
  const n = trend.lines.reduce((sum, line) => sum + (line.fit?.n ?? 0), 0);
  if (n === 0) return "No residuals to check.";
  if (found.length === 0)
    return `No outlier or influential test was found (${limits}; ${n} tests).`;
  const some = found.slice(0, MOST_OUTLIERS).map(({ label, group }) => `${label} (${group})`);
  const more = found.length > some.length ? ` and ${found.length - some.length} more` : "";
  return `${counted(found.length, "test")} of ${n} to check, none removed (${limits}): ${some.join(", ")}${more}.`;
}

/** So many outliers are named in a sentence; the others are in the table. */
const MOST_OUTLIERS = 5;

function slopeFinding(line: TrendLine, { question }: TrendByGroup, words: TrendWords): string {
  const { slope, group, n, series, reason, icc } = line;
  if (slope === null) return `${capitalised(group)}: no line: ${reason}.`;
  const confidence = question.confidence ?? 0.95;
  const found = slope.p !== null && slope.p < 1 - confidence;
  const [one, several] = question.unit ?? ["series", "series"];
  const counts = `${counted(n, "failure")} in ${counted(series, one, several)}`;
  const interval = intervalWords(slope, question, words.unit);
  const told = found
    ? `${words.response} ${changeWords(line, question.scale, words.unit)}`
    : `no significant slope over ${words.variable} was found`;
  const share =
    icc === null ? "" : ` ${percent(icc, 0)} of the variance about the line is between ${several}.`;
  return `${capitalised(group)}: ${told} (${interval}; ${pWords(slope.p)}; ${counts}).${share}`;
}

/** "95 % CI −1.6 to 1.2 % per mm". */
export function intervalWords(
  { lower, upper }: { readonly lower: number; readonly upper: number },
  { scale, confidence = 0.95 }: TrendQuestion,
  unit: string | null,
): string {
  const low = scale === "log" ? 100 * Math.expm1(lower) : lower;
  return `${percent(confidence)} CI ${signed(low)} to ${slopeText(upper, scale, unit)}`;
}

/** "falls by 0.68 % per mm". */
export function changeWords(
  { slope }: Pick<TrendLine, "slope">,
  scale: "value" | "log",
  unit: string | null,
): string {
  const falls = (slope?.estimate ?? 0) < 0;
  return `${falls ? "falls" : "rises"} by ${slopeText(Math.abs(slope?.estimate ?? NaN), scale, unit)}`;
}

function slopeText(slope: number, scale: "value" | "log", unit: string | null): string {
  const per = unit === null ? "per unit" : `per ${unit}`;
  return scale === "log"
    ? `${signed(100 * Math.expm1(slope))} % ${per}`
    : `${signed(slope)} ${per}`;
}

function signed(value: number): string {
  return significant(value, 2).replace("-", "−");
}

function withUnit(x: number, unit: string | null): string {
  return unit === null ? significant(x) : `${significant(x)} ${unit}`;
}
