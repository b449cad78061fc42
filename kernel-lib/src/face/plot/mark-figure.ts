import { labelWords } from "../../comparison";
import type { Invented } from "../../dataset";
import {
  marksFigure,
  marksCaption,
  type Figure as PlainFigure,
  type MarkPoint,
  type PrintSize as RoomSize,
} from "../../figures";
import { axisTitle } from "../../units";
import { fileName, knownName } from "../results/names";

/** Printed width: 88, 120 or 180 mm. */
export type PrintSize = "one column" | "one and a half columns" | "two columns";

const SIZES: Readonly<Record<PrintSize, RoomSize>> = {
  "one column": "one-column",
  "one and a half columns": "column-and-a-half",
  "two columns": "two-column",
};

/** A figure of your own: columns to marks. */
export interface Plot<R> {
  readonly x: keyof R;
  readonly y: keyof R;
  /** Classes told by mark and shade. */
  readonly color?: keyof R;
  /** Classes told by the shape of the mark alone. */
  readonly symbol?: keyof R;
  /** One panel for each value. */
  readonly panel?: keyof R;
  /** A line for each class and panel, or y = x; default none. */
  readonly line?: "none" | "least squares" | "equal";
  /** A level of y drawn across. */
  readonly reference?: number;
  readonly log?: "x" | "y" | "both";
  readonly title?: string;
  readonly subtitle?: string;
  readonly caption?: string;
  readonly size?: PrintSize;
  readonly name?: string;
}

/** What is known of the rows beside their columns. */
export interface MarkBasis {
  readonly name: string;
  /** The rows in words. */
  readonly told: string;
  readonly invented: Invented;
  readonly known: readonly string[];
}

/** Columns that are a lower bound where the row is one. */
const BOUNDED = new Set(["ratio", "load_kN", "peak_load_kN", "bond_stress_MPa"]);

/** @throws UnknownNameError for a column, a line, a size or a scale that there is not */
export function markFigure<R extends object>(
  rows: Iterable<R>,
  marks: Plot<R>,
  { name, told, invented, known }: MarkBasis,
): PlainFigure {
  const named = (column: keyof R | undefined): string | null =>
    column === undefined ? null : knownName("column", String(column), known);
  const [x, y] = [named(marks.x)!, named(marks.y)!];
  const [color, symbol, panel] = [marks.color, marks.symbol, marks.panel].map(named);
  const line = knownName("line", marks.line ?? "none", ["none", "least squares", "equal"]);
  const log =
    marks.log === undefined ? [] : [knownName("log scale", marks.log, ["x", "y", "both"])];
  const size =
    marks.size === undefined
      ? undefined
      : SIZES[knownName("size", marks.size, Object.keys(SIZES) as PrintSize[])];
  const points = [...rows].map((row): MarkPoint => {
    const cell = (column: string): unknown => row[column as keyof R];
    const number = (column: string): number => {
      const value = cell(column);
      return typeof value === "number" ? value : NaN;
    };
    const words = (column: string | null | undefined): string | null =>
      column ? labelWords(column, (cell(column) ?? null) as string | number | null) : null;
    const test = cell("test_id");
    const bound = isBound(row);
    return {
      x: number(x),
      y: number(y),
      color: words(color),
      symbol: words(symbol),
      panel: words(panel),
      bound: !bound ? null : BOUNDED.has(y) ? "y" : BOUNDED.has(x) ? "x" : null,
      label: typeof test === "string" ? test : "",
    };
  });
  const scales = {
    x: { title: axisTitle(x), log: log.some((one) => one !== "y") },
    y: { title: axisTitle(y), log: log.some((one) => one !== "x") },
  };
  const title = marks.title ?? `${plainTitle(y)} against ${plainTitle(x).toLowerCase()}`;
  const said = marksCaption(points, { line, ...scales });
  return marksFigure({
    id: marks.name === undefined ? fileName(name, y, "against", x) : fileName(marks.name),
    title,
    ...(marks.subtitle === undefined ? {} : { subtitle: marks.subtitle }),
    caption: [marks.caption ?? told, said].filter(Boolean).join(" "),
    invented,
    ...(size === undefined ? {} : { size }),
    points,
    ...scales,
    line,
    ...(marks.reference === undefined ? {} : { reference: marks.reference }),
  });
}

/** A pair of test and provision says so itself; a test by its observed mode. */
function isBound(row: object): boolean {
  if ("lower_bound" in row) return row.lower_bound === "yes" || row.lower_bound === true;
  const observed = "failure_mode" in row ? row.failure_mode : null;
  return observed === "stopped" || observed === "rupture_at_grip";
}

function plainTitle(column: string): string {
  return axisTitle(column).replace(/ \([^()]*\)$/, "");
}
