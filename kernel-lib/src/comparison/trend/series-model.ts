import { mixedModel, type MixedModel } from "../../regression";
import { columnTitle } from "../../units";
import { labelWords } from "../labels";
import { orReason } from "./or-reason";
import type { TrendByGroup } from "./trend";
import type { TrendPoint } from "./trend-line";

/** One slope for all groups of a family, with a random shift of each series (or study). */
export interface SeriesModel {
  readonly family: string;
  /** Columns allowed for beside group and variable; none in the pooled model. */
  readonly allowedFor: readonly string[];
  readonly model: MixedModel | null;
  readonly reason: string;
  /** What the shifts are against: "steel", "adhesive P". */
  readonly bases: readonly string[];
  /** Tests that do not state a column allowed for, and are omitted here. */
  readonly omitted: number;
}

/** Name of the variable's coefficient in the models. */
export const SLOPE_OF_ALL = "slope";

type Columns = Readonly<Record<string, readonly number[]>>;

/**
 * Linear mixed models of each family: y (or ln y) by group and variable with a random shift of each
 * series, pooled; and, where columns are stated, with a level for each of their words or a slope
 * for their numbers. What is then left between series is closer to what series really differ by.
 * Limits: one slope and one scatter for all groups; lower bounds left out (`mixedModel`).
 * @param columns those that the points state beside the variable
 * @example seriesModels(trend, ["adhesive", "cracked"])[1]?.model?.coefficient(SLOPE_OF_ALL)
 */
export function seriesModels(trend: TrendByGroup, columns: readonly string[]): SeriesModel[] {
  return trend.families.flatMap(({ family }) => {
    const points = trend.fitted.filter((one) => one.family === family);
    const whole = points.filter(({ beside }) =>
      columns.every((name) => (beside?.[name] ?? null) !== null),
    );
    const pooled = modelOf(family, points, [], trend);
    if (columns.length === 0) return [pooled];
    return [
      pooled,
      { ...modelOf(family, whole, columns, trend), omitted: points.length - whole.length },
    ];
  });
}

function modelOf(
  family: string,
  points: readonly TrendPoint[],
  allowedFor: readonly string[],
  { question, lines }: TrendByGroup,
): SeriesModel {
  const { scale, confidence = 0.95, response, unit = ["series", "series"] } = question;
  const present = new Set(points.map(({ group }) => group));
  const groups = lines.map(({ group }) => group).filter((group) => present.has(group));
  // As in differences of slopes, the later group is the one that others are read against.
  const base = groups.at(-1) ?? "";
  const shifts = Object.fromEntries(
    groups.slice(0, -1).map((name) => [name, points.map(({ group }) => (group === name ? 1 : 0))]),
  );
  const beside = allowedFor.map((name) => columnsOf(name, points));
  const found = orReason(() =>
    mixedModel({
      y: points.map(({ y }) => (scale === "log" ? Math.log(y) : y)),
      columns: {
        ...shifts,
        [SLOPE_OF_ALL]: points.map(({ x }) => x),
        ...Object.fromEntries(beside.flatMap(({ columns }) => Object.entries(columns))),
      },
      studies: points.map(({ series }) => series ?? ""),
      unit,
      confidence,
      response,
    }),
  );
  const bases = [groups.length > 1 ? base : "", ...beside.map((one) => one.base)];
  return { family, allowedFor, ...found, bases: bases.filter((one) => one !== ""), omitted: 0 };
}

/** Numbers as they are; words as one column for each but the first. */
function columnsOf(
  name: string,
  points: readonly TrendPoint[],
): { readonly columns: Columns; readonly base: string } {
  const cells = points.map(({ beside }) => beside?.[name] ?? null);
  if (cells.length > 0 && cells.every((cell) => typeof cell === "number")) {
    const { title, unit } = columnTitle(name);
    const per = unit === null ? "" : `, per ${unit}`;
    return { columns: { [`${title.toLowerCase()}${per}`]: cells }, base: "" };
  }
  const words = cells.map((cell) => labelWords(name.replace(/^extra\./, ""), cell));
  const [base = "", ...others] = [...new Set(words)].sort();
  const columns = Object.fromEntries(
    others.map((one) => [one, words.map((word) => (word === one ? 1 : 0))]),
  );
  return { columns, base: others.length === 0 ? "" : base };
}
