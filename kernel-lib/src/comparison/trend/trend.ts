import {
  ancova,
  mixedModel,
  regressionByGroup,
  type Ancova,
  type GroupRegression,
} from "../../regression";
import { adjustPValues } from "../../statistics";
import { orReason } from "./or-reason";
import { predictionsAt, type TrendPrediction } from "./predictions";
import type { TrendLine, TrendPoint, TrendQuestion } from "./trend-line";

/** Slopes of the groups of one family, compared. */
export interface TrendFamily {
  readonly family: string;
  readonly model: Ancova | null;
  /** p of each slope difference, Holm-adjusted within the family. */
  readonly adjusted: readonly number[];
  readonly reason: string;
}

export interface TrendByGroup {
  readonly question: TrendQuestion;
  /** The points that are fitted, in the order of the rows of the fits. */
  readonly fitted: readonly TrendPoint[];
  readonly lines: readonly TrendLine[];
  readonly families: readonly TrendFamily[];
  readonly predictions: readonly TrendPrediction[];
}

/**
 * A straight line along a variable for each group, lower bounds omitted: slopes
 * (`regressionByGroup`; with the series effect cluster-robust by series), their differences within
 * a family (`ancova`, Holm-adjusted), and the lines read at stated values.
 *
 * Limits: a straight line in the scale stated; left-out lower bounds bias a group low where strong
 * specimens failed in another mode; few series give wide or no intervals.
 * @example
 * trendByGroup(points, { scale: "log", seriesEffect: true, at: [8, 32], response: "ratio", variable: "bar diameter" })
 */
export function trendByGroup(points: readonly TrendPoint[], question: TrendQuestion): TrendByGroup {
  const usable = points.filter(({ x, y }) => Number.isFinite(x) && Number.isFinite(y));
  const fitted = usable.filter(({ bound, y }) => !bound && (question.scale === "value" || y > 0));
  const groups = [...new Set(points.map(({ group }) => group))];
  const fits = regressionByGroup({ ...modelOf(fitted, question), groups: groupOf(fitted) }).groups;
  const lines = groups.map((group) =>
    lineOf(
      group,
      usable.filter((one) => one.group === group),
      fitted.filter((one) => one.group === group),
      fits.find((one) => one.group === group),
      question,
    ),
  );
  const families = [...new Set(lines.map(({ family }) => family))].map((family) =>
    familyOf(
      family,
      lines.filter((line) => line.family === family && line.fit !== null),
      fitted,
      question,
    ),
  );
  return { question, fitted, lines, families, predictions: predictionsAt(lines, question) };
}

/** Name of the variable's coefficient. */
const SLOPE = "x";

function groupOf(points: readonly TrendPoint[]): string[] {
  return points.map(({ group }) => group);
}

function modelOf(
  points: readonly TrendPoint[],
  { scale, seriesEffect, confidence = 0.95, response }: TrendQuestion,
): Omit<Parameters<typeof regressionByGroup>[0], "groups"> {
  return {
    y: points.map(({ y }) => (scale === "log" ? Math.log(y) : y)),
    columns: { [SLOPE]: points.map(({ x }) => x) },
    confidence,
    response,
    ...(seriesEffect
      ? { standardErrors: { clusters: points.map(({ series }) => series ?? "") } }
      : {}),
  };
}

function lineOf(
  group: string,
  points: readonly TrendPoint[],
  fitted: readonly TrendPoint[],
  found: GroupRegression | undefined,
  question: TrendQuestion,
): TrendLine {
  const ok = found?.status === "ok" ? found : null;
  const sizes = fitted.map(({ x }) => x);
  return {
    group,
    family: points[0]?.family ?? "",
    points,
    n: fitted.length,
    lowerBounds: points.filter(({ bound }) => bound).length,
    series: new Set(fitted.map(({ series }) => series).filter((one) => one !== null)).size,
    from: sizes.length === 0 ? NaN : Math.min(...sizes),
    to: sizes.length === 0 ? NaN : Math.max(...sizes),
    slope: ok?.fit.coefficient(SLOPE) ?? null,
    fit: ok?.fit ?? null,
    icc: ok === null ? null : correlationOf(fitted, question),
    reason: ok !== null ? "" : reasonOf(sizes, found),
  };
}

function reasonOf(sizes: readonly number[], found: GroupRegression | undefined): string {
  if (sizes.length === 0) return "no test failed in this group";
  if (new Set(sizes).size === 1)
    return `all ${sizes.length} failures are at one value, ${sizes[0]}`;
  if (sizes.length < 3) return `${sizes.length} failures; at least 3 are needed`;
  return found?.status === "ok" || found === undefined ? "" : found.needed.replace(/\.$/, "");
}

/** Null where series cannot be separated from tests. */
function correlationOf(points: readonly TrendPoint[], question: TrendQuestion): number | null {
  const { y, columns } = modelOf(points, question);
  const studies = points.map(({ series }) => series ?? "");
  return orReason(() => mixedModel({ y, columns, studies })).model?.intraclassCorrelation ?? null;
}

function familyOf(
  family: string,
  lines: readonly TrendLine[],
  fitted: readonly TrendPoint[],
  question: TrendQuestion,
): TrendFamily {
  const none = { family, model: null, adjusted: [] };
  if (lines.length < 2)
    return { ...none, reason: "fewer than two groups with a line, so no slopes are compared" };
  const known = new Set(lines.map(({ group }) => group));
  const points = fitted.filter(({ group }) => known.has(group));
  const { standardErrors, confidence } = modelOf(points, question);
  const found = orReason(() =>
    ancova({
      y: points.map(({ y }) => y),
      x: points.map(({ x }) => x),
      groups: groupOf(points),
      scale: question.scale === "log" ? "log" : "identity",
      response: question.response,
      variable: question.variable,
      ...(standardErrors === undefined ? {} : { standardErrors }),
      ...(confidence === undefined ? {} : { confidence }),
    }),
  );
  if (found.model === null) return { ...none, reason: found.reason };
  const adjusted = adjustPValues(found.model.slopeDifferences.map(({ p }) => p ?? NaN));
  return { family, ...found, adjusted: Array.from(adjusted) };
}
