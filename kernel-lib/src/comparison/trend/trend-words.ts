import { percent, pWords, significant } from "../../statistics/reading";
import { capitalised } from "../labels";
import type { TrendByGroup } from "./trend";
import type { TrendLine } from "./trend-line";
import type { TrendPrediction } from "./predictions";

/** How the variable and its unit stand in sentences. */
export interface TrendWords {
  readonly response: string;
  readonly variable: string;
  readonly unit: string | null;
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
  if (changed.length > told.length) told.push(`${changed.length - told.length} more change`);
  const others = known.length - changed.length;
  const slopes =
    changed.length === 0
      ? `no significant slope in ${known.length === 1 ? "the one group" : `any of ${known.length} groups`}`
      : told.join(", ") + (others > 0 ? `; no significant slope in the other ${others}` : "");
  const effect = question.seriesEffect ? "series effect included" : "series effect ignored";
  const ends = known.length > MOST_GROUPS ? [] : endsOf(predictions, question.at, words);
  return `${capitalised(words.response)} along ${words.variable}, ${effect}: ${[slopes, ...ends].join("; ")}.`;
}

/** Readings of the lines at the least and the largest value asked for. */
function endsOf(
  predictions: readonly TrendPrediction[],
  at: readonly number[],
  { unit }: TrendWords,
): string[] {
  const ends = [...new Set([Math.min(...at), Math.max(...at)])].filter(Number.isFinite);
  return ends.map((x) => {
    const of = predictions.filter((one) => one.x === x);
    const told = of.map(
      ({ group, fitted, lower, upper }) =>
        `${significant(fitted)} for ${group} (${significant(lower)} to ${significant(upper)})`,
    );
    const beyond = of.every(({ extrapolated }) => extrapolated)
      ? ", beyond the sizes tested,"
      : of.some(({ extrapolated }) => extrapolated)
        ? ", in part beyond the sizes tested,"
        : "";
    return `at ${withUnit(x, unit)}${beyond} the lines give ${told.join(", ")}`;
  });
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
    ...(bounds === 0
      ? []
      : [
          `${bounds} lower bounds are left out of the lines: where strong specimens failed in another mode, a line lies too low.`,
        ]),
  ];
}

function slopeFinding(line: TrendLine, { question }: TrendByGroup, words: TrendWords): string {
  const { slope, group, n, series, reason, icc } = line;
  if (slope === null) return `${capitalised(group)}: no line: ${reason}.`;
  const confidence = question.confidence ?? 0.95;
  const found = slope.p !== null && slope.p < 1 - confidence;
  const counts = `${n} failures in ${series} series`;
  const low = question.scale === "log" ? 100 * Math.expm1(slope.lower) : slope.lower;
  const interval = `${percent(confidence)} CI ${signed(low)} to ${slopeText(slope.upper, question.scale, words.unit)}`;
  const told = found
    ? `${words.response} ${changeWords(line, question.scale, words.unit)}`
    : `no significant slope over ${words.variable} was found`;
  const share =
    icc === null ? "" : ` ${percent(icc, 0)} of the variance about the line lies between series.`;
  return `${capitalised(group)}: ${told} (${interval}; ${pWords(slope.p)}; ${counts}).${share}`;
}

function changeWords(
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
