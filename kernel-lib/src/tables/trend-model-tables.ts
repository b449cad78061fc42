import {
  allowedWords,
  SLOPE_OF_ALL,
  trendGaps,
  trendOutliers,
  type SeriesModel,
  type TrendByGroup,
} from "../comparison";
import { percent } from "../statistics/reading";
import type { TableColumn, TableRow } from "./column";
import { Table } from "./table";
import type { TableText } from "./table-text";

const UNIT = ["series", "series"] as const;

interface Variable {
  readonly title: string;
  readonly unit: string | null;
}

function variableColumn({ title, unit }: Variable): TableColumn {
  const named = unit === null ? {} : { unit };
  return { key: "x", title: title.toLowerCase(), kind: "number", digits: 3, limit: null, ...named };
}

function intervalColumns(confidence: number): TableColumn[] {
  return [
    { key: "lower", title: `${percent(confidence)} from`, kind: "number", limit: null },
    { key: "upper", title: "to", kind: "number", limit: null },
  ];
}

/** The gaps between groups at the values asked for, from one model with a line for each group. */
export function trendGapTable(trend: TrendByGroup, variable: Variable, text: TableText): Table {
  const { scale, confidence = 0.95 } = trend.question;
  return new Table({
    ...text,
    rowKey: ["first", "second", "x"],
    columns: [
      { key: "first", title: "group", kind: "text" },
      { key: "second", title: scale === "log" ? "relative to" : "less", kind: "text" },
      variableColumn(variable),
      {
        key: "gap",
        title: scale === "log" ? "ratio of medians" : "difference of means",
        kind: "number",
        ...(scale === "log" ? {} : { limit: null }),
      },
      ...intervalColumns(confidence),
      {
        key: "extrapolated",
        title: "extrapolated",
        kind: "text",
        note: "beyond the range tested in one of the groups",
      },
    ],
    rows: trendGaps(trend).map(({ estimate, extrapolated, first, second, x, lower, upper }) => ({
      first,
      second,
      x,
      gap: estimate,
      lower,
      upper,
      extrapolated: extrapolated ? "yes" : "no",
    })),
  });
}

/** Coefficients and scatters of the models with a random series effect. */
export function seriesModelTable(
  models: readonly SeriesModel[],
  { scale, confidence = 0.95, unit: [one, several] = UNIT }: TrendByGroup["question"],
  { title, unit }: Variable,
  text: TableText,
): Table {
  const families = new Set(models.map(({ family }) => family)).size > 1;
  const bases = [...new Set(models.flatMap((model) => model.bases))];
  const per = unit === null ? "per unit" : `1/${unit}`;
  const rowsOf = ({ family, allowedFor, model }: SeriesModel): TableRow[] => {
    if (model === null) return [];
    const named = allowedFor.length === 0 ? "pooled" : `allowing for ${allowedWords(allowedFor)}`;
    const row = (quantity: string, value: Omit<TableRow, string>): TableRow => ({
      ...(families ? { family } : {}),
      model: named,
      quantity,
      ...value,
    });
    const sd = (value: { estimate: number; lower: number; upper: number }): TableRow => ({
      estimate: value.estimate,
      lower: value.lower,
      upper: Number.isFinite(value.upper) ? value.upper : null,
    });
    return [
      ...model.coefficients.map(({ name, estimate, lower, upper, p }) =>
        row(
          name === SLOPE_OF_ALL
            ? `slope over ${title.toLowerCase()}, ${per}`
            : name.replace(/[()]/g, ""),
          { estimate, lower, upper, p },
        ),
      ),
      row(`SD between ${several}`, { ...sd(model.betweenStudySd), p: model.studyTest.p }),
      row(`SD within ${several}`, { ...sd(model.withinStudySd), p: null }),
    ];
  };
  return new Table({
    ...text,
    rowKey: [...(families ? ["family"] : []), "model", "quantity"],
    columns: [
      ...(families ? [{ key: "family", title: "family", kind: "text" } as const] : []),
      { key: "model", title: "model", kind: "text" },
      { key: "quantity", title: "quantity", kind: "text" },
      { key: "estimate", title: "estimate", kind: "number", limit: null },
      ...intervalColumns(confidence),
      {
        key: "p",
        title: "p",
        kind: "number",
        digits: 2,
        limit: null,
        note: `for a slope of zero; for the SD between, likelihood-ratio test of no ${one} effect`,
      },
    ],
    rows: models.flatMap(rowsOf),
    notes: [
      ...(text.notes ?? []),
      ...(scale === "log"
        ? ["An SD of a logarithm is approximately a coefficient of variation."]
        : []),
      ...(bases.length === 0 ? [] : [`Shifts are relative to ${bases.join(", ")}.`]),
      ...models.flatMap(({ model, reason, allowedFor }) =>
        model !== null
          ? model.warnings.map((warning) => `${warning}.`)
          : [
              `Not fitted${allowedFor.length === 0 ? "" : ` allowing for ${allowedWords(allowedFor)}`}: ${reason}.`,
            ],
      ),
      ...models.flatMap(({ omitted }) =>
        omitted === 0
          ? []
          : [
              `${omitted} tests do not state every column allowed for and are included in the pooled model only.`,
            ],
      ),
    ],
  });
}

/** The shift of each series or study about the common lines, drawn toward 0. */
export function seriesShiftTable(
  models: readonly SeriesModel[],
  { scale, unit: [one] = UNIT }: TrendByGroup["question"],
  text: TableText,
): Table {
  // The finest model of each family.
  const last = models.filter(
    ({ family }, k) => !models.slice(k + 1).some((other) => other.family === family),
  );
  const several = last.length > 1;
  return new Table({
    ...text,
    rowKey: [...(several ? ["family"] : []), "unit"],
    columns: [
      ...(several ? [{ key: "family", title: "family", kind: "text" } as const] : []),
      { key: "unit", title: one, kind: "text" },
      { key: "n", title: "n", kind: "integer", note: "tests fitted" },
      {
        key: "shift",
        title: "shift",
        kind: "number",
        limit: null,
        note: `${scale === "log" ? "of the logarithm, " : ""}drawn toward 0 the more, the fewer tests a ${one} has`,
      },
    ],
    rows: last.flatMap(({ family, model }) =>
      [...(model?.studies ?? [])]
        .sort((a, b) => a.effect - b.effect)
        .map(({ study, n, effect }) => ({
          ...(several ? { family } : {}),
          unit: String(study),
          n,
          shift: effect,
        })),
    ),
  });
}

/** Tests far off the line of their group, or that move it alone. */
export function outlierTable(trend: TrendByGroup, variable: Variable, text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["test_id", "group"],
    columns: [
      { key: "test_id", title: "test", kind: "text" },
      { key: "group", title: "group", kind: "text" },
      variableColumn(variable),
      { key: "y", title: trend.question.response, kind: "number" },
      { key: "studentized", title: "studentized residual", kind: "number", limit: null },
      { key: "cook", title: "Cook's distance", kind: "number", limit: null },
    ],
    rows: trendOutliers(trend).map(({ label, group, x, y, studentized, cookDistance }) => ({
      test_id: label,
      group,
      x,
      y,
      studentized,
      cook: cookDistance,
    })),
  });
}
