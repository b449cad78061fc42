import type { TrendByGroup } from "../comparison";
import { percent } from "../statistics/reading";
import type { TableColumn } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

const UNIT = ["series", "series"] as const;

const EXTRAPOLATED = {
  key: "extrapolated",
  title: "extrapolated",
  kind: "text",
  note: "beyond the range tested",
} as const;

const P = { kind: "number", digits: 2, limit: null } as const;

function slopeColumns(unit: string | null, confidence: number): TableColumn[] {
  const inverse = unit === null ? {} : { unit: `1/${unit}` };
  return [
    { key: "slope", title: "slope", kind: "number", limit: null, ...inverse },
    {
      key: "lower",
      title: `${percent(confidence)} from`,
      kind: "number",
      limit: null,
      ...inverse,
    },
    { key: "upper", title: "to", kind: "number", limit: null, ...inverse },
    { key: "p", title: "p", ...P, note: "for a slope of zero; not corrected for several groups" },
  ];
}

/** The slope of each group; `unit` is that of the variable where the response has none. */
export function slopeTable(
  { lines, question }: TrendByGroup,
  unit: string | null,
  text: TableText,
): Table {
  return new Table({
    ...text,
    rowKey: ["group"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      { key: "n", title: "n", kind: "integer", note: "tests fitted" },
      {
        key: "n_lower_bounds",
        title: "lower bounds",
        kind: "integer",
        note: "omitted from the line",
      },
      { key: "series", title: (question.unit ?? UNIT)[1], kind: "integer" },
      ...slopeColumns(unit, question.confidence ?? 0.95),
      { key: "residual_sd", title: "residual SD", kind: "number", limit: null },
      {
        key: "icc",
        title: "ICC",
        kind: "number",
        decimals: 2,
        limit: null,
        note: `share of the variance about the line between ${(question.unit ?? UNIT)[1]}, random ${(question.unit ?? UNIT)[0]} effect`,
      },
    ],
    rows: lines.map((line) => ({
      group: line.group,
      n: line.n,
      n_lower_bounds: line.lowerBounds,
      series: line.series,
      slope: line.slope?.estimate ?? null,
      lower: line.slope?.lower ?? null,
      upper: line.slope?.upper ?? null,
      p: line.slope?.p ?? null,
      residual_sd: line.fit?.residualSd ?? null,
      icc: line.icc,
    })),
  });
}

/** Differences of slopes within each family, Holm-adjusted. */
export function slopeDifferenceTable(
  { families, question }: TrendByGroup,
  unit: string | null,
  text: TableText,
): Table {
  return new Table({
    ...text,
    rowKey: ["first", "second"],
    columns: [
      { key: "first", title: "group", kind: "text" },
      { key: "second", title: "less", kind: "text" },
      ...slopeColumns(unit, question.confidence ?? 0.95).map((column) =>
        column.key === "p" ? { ...column, note: "of equal slopes" } : column,
      ),
      { key: "p_adjusted", title: "p (Holm)", ...P, note: "corrected for all pairs" },
    ],
    rows: families.flatMap(({ model, adjusted }) =>
      (model?.slopeDifferences ?? []).map((one, k) => ({
        first: one.first,
        second: one.second,
        slope: one.estimate,
        lower: one.lower,
        upper: one.upper,
        p: one.p,
        p_adjusted: adjusted[k] ?? null,
      })),
    ),
  });
}

/** The lines read at the values asked for. */
export function atSizesTable(
  { predictions, question }: TrendByGroup,
  variable: { readonly title: string; readonly unit: string | null },
  text: TableText,
): Table {
  const height = question.scale === "log" ? "median" : "mean";
  return new Table({
    ...text,
    rowKey: ["group", "x"],
    columns: [
      { key: "group", title: "group", kind: "text" },
      {
        key: "x",
        title: variable.title.toLowerCase(),
        kind: "number",
        digits: 3,
        limit: null,
        ...(variable.unit === null ? {} : { unit: variable.unit }),
      },
      { key: "fitted", title: height, kind: "number", note: "value of the line" },
      { key: "lower", title: `${percent(question.confidence ?? 0.95)} from`, kind: "number" },
      { key: "upper", title: "to", kind: "number" },
      {
        key: "characteristic",
        title: "5 % fractile",
        kind: "number",
        note: question.seriesEffect
          ? `lower one-sided 90 % bound for a further test of a further ${(question.unit ?? UNIT)[0]}; dash below three ${(question.unit ?? UNIT)[1]}`
          : "lower one-sided 90 % bound, series effect ignored",
      },
      EXTRAPOLATED,
    ],
    rows: predictions.map((one) => ({
      group: one.group,
      x: one.x,
      fitted: one.fitted,
      lower: one.lower,
      upper: one.upper,
      characteristic: one.characteristic,
      extrapolated: one.extrapolated ? "yes" : "no",
    })),
  });
}
