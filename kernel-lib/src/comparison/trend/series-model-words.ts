import type { MixedModel } from "../../regression";
import { percent, pWords, significant, listed } from "../../statistics/reading";
import { capitalised } from "../labels";
import { SLOPE_OF_ALL, type SeriesModel } from "./series-model";
import type { TrendQuestion } from "./trend-line";
import { changeWords, intervalWords, type TrendWords } from "./trend-words";

/** Columns in words: "adhesive, cracked and layout". */
export function allowedWords(columns: readonly string[]): string {
  const words = columns.map((name) =>
    name
      .replace(/^extra\./, "")
      .replace(/_(mm2?|MPa|GPa)$/, "")
      .replaceAll("_", " "),
  );
  return listed(words);
}

/** What one model says: its slope, and how much of the variance lies between series. */
export function seriesModelFinding(
  { family, allowedFor, model, reason, omitted }: SeriesModel,
  question: TrendQuestion,
  { response, variable, unit }: TrendWords,
): string {
  const [one, several] = question.unit ?? ["series", "series"];
  const head = capitalised(
    [
      family,
      allowedFor.length === 0
        ? "pooled model"
        : `model that allows for ${allowedWords(allowedFor)}`,
    ]
      .filter((words) => words !== "")
      .join(", "),
  );
  if (model === null) return `${head} with a random ${one} effect: not fitted. ${reason}.`;
  const told = slopeOfAll(model, question, { response, variable, unit });
  const { betweenStudySd: between, withinStudySd: within, intraclassCorrelation: icc } = model;
  const without =
    omitted === 0 ? "" : ` ${omitted} tests do not state these columns and are omitted.`;
  return `${head}, one slope and a random ${one} effect: ${told}; ${percent(icc, 0)} of the variance about the lines is between ${several} (SD ${significant(between.estimate)} between, ${significant(within.estimate)} within).${without}`;
}

/** What the finest model adds to an answer; nothing where no column is allowed for. */
export function allowedForClause(
  models: readonly SeriesModel[],
  question: TrendQuestion,
  words: TrendWords,
): string {
  const [last] = models.filter(({ allowedFor }) => allowedFor.length > 0).slice(-1);
  if (models.length > 2 || !last?.model) return "";
  return `; allowing for ${allowedWords(last.allowedFor)}, ${slopeOfAll(last.model, question, words)}`;
}

function slopeOfAll(
  model: MixedModel,
  question: TrendQuestion,
  { response, variable, unit }: TrendWords,
): string {
  const slope = model.coefficient(SLOPE_OF_ALL);
  const found = slope.p !== null && slope.p < 1 - (question.confidence ?? 0.95);
  const told = found
    ? `the ${response} ${changeWords({ slope }, question.scale, unit)}`
    : `no significant slope over ${variable} was found`;
  return `${told} (${intervalWords(slope, question, unit)}; ${pWords(slope.p)})`;
}
