import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { fitTraces } from "./fitted-line";
import { frame, legendNames } from "./frame";
import { houseAxis } from "./house-style";
import { levelLine } from "./level-line";
import { markLines, type MarkLine } from "./mark-lines";
import { classOf, type MarkPoint, type MarkScale } from "./mark-point";
import { markTraces } from "./mark-traces";
import { logTicks, paddedRange } from "./numbers";
import { panelGrid, panelsPerRow } from "./panels";

export interface MarksInput extends FigureText {
  readonly points: readonly MarkPoint[];
  readonly x: MarkScale;
  readonly y: MarkScale;
  readonly line: MarkLine;
  /** A level of y drawn across. */
  readonly reference?: number;
}

/** Room above panels for their titles. */
const PANEL_TITLE = 16;

/**
 * Rows as marks over two columns, by class and panel, with a fitted line for each class: the figure
 * of one's own. Lower bounds are open triangles towards larger values. On a log axis only values
 * above zero are drawn.
 */
export function marksFigure(input: MarksInput): Figure {
  const { x, y, line, reference } = input;
  const points = drawable(input.points, input);
  const panels = [...new Set(points.map(({ panel }) => panel))];
  const classes = [...new Set(points.map(classOf))];
  const fits = panels.map((panel) =>
    markLines(
      points.filter((one) => one.panel === panel),
      input,
    ),
  );
  const [xRange, yRange] = rangesOf(points, input);
  const titles = panels.map((panel) => {
    const n = points.filter((one) => one.panel === panel).length;
    return `${panel ?? ""} (n = ${n})`;
  });
  const most = input.size === "one-column" ? 1 : input.size === "column-and-a-half" ? 2 : 3;
  const grid = panelGrid(input, {
    titles,
    perRow: panelsPerRow(input, titles, most),
    panelHeight: 185,
    x: { title: x.title, range: xRange },
    y: { title: y.title, range: yRange },
  });
  const several = panels.length > 1 || (panels[0] ?? null) !== null;
  const axesOf = (i: number): { readonly [key: string]: string } =>
    several ? { ...grid.axes(i) } : {};
  const span: [number, number] = x.log ? [10 ** xRange[0], 10 ** xRange[1]] : xRange;
  const data = panels.flatMap((panel, i): Trace[] => [
    ...(reference === undefined ? [] : [levelLine(reference, span, axesOf(i))]),
    ...fits[i]!.flatMap((fit) =>
      fitTraces(fit, Math.max(0, classes.indexOf(fit.series)), axesOf(i)),
    ),
    ...markTraces(points, panel, classes, axesOf(i)),
  ]);
  const axes = several
    ? grid.parts
    : {
        xaxis: { ...houseAxis(x.title), range: xRange },
        yaxis: { ...houseAxis(y.title), range: yRange },
      };
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: several ? grid.plotHeight : input.size === "one-column" ? 220 : 300,
    legend: legendNames(data),
    parts: {
      ...withLogs(axes, { x: x.log ? xRange : null, y: y.log ? yRange : null }),
      ...(several ? { annotations: [...grid.annotations] } : {}),
    },
  });
  const alt = `${plain(y.title)} against ${plain(x.title).toLowerCase()} for ${points.length} tests${classes.length > 1 ? ` of ${classes.join("; ")}` : ""}${several ? ` in ${panels.length} panels` : ""}${line === "least squares" ? ", with least-squares lines" : ""}.`;
  if (!several) return figureOf(input, alt, data, layout);
  // Titles of panels stand above the plotting area, and the legend above them.
  const margin = layout["margin"] as { readonly t: number };
  const legend = layout["legend"] as { readonly [key: string]: PlotValue };
  return figureOf(input, alt, data, {
    ...layout,
    height: layout.height + PANEL_TITLE,
    margin: { ...margin, t: margin.t + PANEL_TITLE },
    legend: { ...legend, y: 1 + PANEL_TITLE / grid.plotHeight },
  });
}

/** What the marks and the line mean, and what is left out: the end of a caption. */
export function marksCaption(
  points: readonly MarkPoint[],
  scales: Pick<MarksInput, "x" | "y" | "line">,
): string {
  const drawn = drawable(points, scales);
  const bounds = drawn.filter(({ bound }) => bound !== null).length;
  const missing = points.length - drawn.length;
  const logs =
    scales.x.log || scales.y.log
      ? ` of ${scales.y.log ? "ln y" : "y"} on ${scales.x.log ? "ln x" : "x"}`
      : "";
  return [
    bounds === 0 ? "" : `Open triangles: ${bounds} lower ${bounds === 1 ? "bound" : "bounds"}.`,
    scales.line === "equal"
      ? "Line: equal values."
      : scales.line === "least squares"
        ? `Line: least squares${logs}${bounds === 0 ? "" : ", lower bounds omitted"}.`
        : "",
    missing === 0
      ? ""
      : `${missing} of ${points.length} rows have no value${scales.x.log || scales.y.log ? " above zero" : ""} and are not drawn.`,
  ]
    .filter(Boolean)
    .join(" ");
}

function drawable(
  points: readonly MarkPoint[],
  { x, y }: Pick<MarksInput, "x" | "y">,
): MarkPoint[] {
  const fits = (value: number, { log }: MarkScale): boolean =>
    Number.isFinite(value) && (!log || value > 0);
  return points.filter((one) => fits(one.x, x) && fits(one.y, y));
}

/** Ranges of the axes as plotly takes them: of logarithms to base 10 on log axes. */
function rangesOf(
  points: readonly MarkPoint[],
  { x, y, line, reference }: MarksInput,
): [[number, number], [number, number]] {
  const both = line === "equal" ? points.flatMap((one) => [one.x, one.y]) : null;
  const range = (values: readonly number[], log: boolean, more: readonly number[]) =>
    log
      ? paddedRange([...values, ...more].filter((one) => one > 0).map(Math.log10))
      : paddedRange(values, more);
  const level = reference === undefined ? [] : [reference];
  return [
    range(both ?? points.map((one) => one.x), x.log, []),
    range(both ?? points.map((one) => one.y), y.log, level),
  ];
}

function withLogs(
  axes: { readonly [key: string]: PlotValue },
  logs: Readonly<Record<"x" | "y", readonly [number, number] | null>>,
): { readonly [key: string]: PlotValue } {
  return Object.fromEntries(
    Object.entries(axes).map(([name, axis]) => {
      const range = /^[xy]axis/.test(name) ? logs[name.charAt(0) as "x" | "y"] : null;
      if (range === null) return [name, axis];
      const tickvals = logTicks(10 ** range[0], 10 ** range[1]);
      return [name, { ...(axis as object), type: "log", tickvals, ticktext: tickvals.map(String) }];
    }),
  );
}

function plain(title: string): string {
  return title.replace(/ \([^()]*\)$/, "");
}
