import type { PlotValue, Trace } from "./figure";
import { censoredMarker, seriesLook, testMarker } from "./house-style";
import { classOf, type MarkPoint } from "./mark-point";
import { plainText } from "./text-width";

/** Order in the legend: classes as they come, lower bounds last. */
const FIRST = 1;
const LAST = 1000;

/**
 * The marks of one panel: a trace for each class and one of open triangles for lower bounds. A class
 * is in the legend once, with its number of tests in all panels.
 */
export function markTraces(
  points: readonly MarkPoint[],
  panel: string | null,
  classes: readonly string[],
  axes: { readonly [key: string]: string },
): Trace[] {
  const own = points.filter((one) => one.panel === panel);
  const trace = (
    some: readonly MarkPoint[],
    name: string,
    first: boolean,
    marker: PlotValue,
    rank: number,
  ): Trace => ({
    type: "scatter",
    mode: "markers",
    name,
    legendgroup: name,
    legendrank: rank,
    showlegend: first && name !== "",
    x: some.map((one) => one.x),
    y: some.map((one) => one.y),
    text: some.map((one) => plainText(one.label)),
    hovertemplate: "%{text}<br>%{x:.4~g}, %{y:.4~g}<extra></extra>",
    marker,
    ...axes,
  });
  // Whether this is the first panel with a mark of that kind.
  const panels = [...new Set(points.map((one) => one.panel))];
  const isFirst = (belongs: (one: MarkPoint) => boolean): boolean =>
    panels.find((other) => points.some((one) => one.panel === other && belongs(one))) === panel;
  const shapes = [...new Set(points.map(({ symbol }) => symbol))];
  const colors = [...new Set(points.map(({ color }) => color))];
  const marks = classes.flatMap((name, i): Trace[] => {
    const belongs = (one: MarkPoint): boolean => classOf(one) === name && one.bound === null;
    const some = own.filter(belongs);
    if (some.length === 0) return [];
    const [{ color, symbol }] = [some[0]!];
    const look =
      symbol === null || color === null
        ? seriesLook(i)
        : {
            ...seriesLook(colors.indexOf(color)),
            symbol: seriesLook(shapes.indexOf(symbol)).symbol,
          };
    const n = points.filter((one) => classOf(one) === name).length;
    const title = name === "" ? "" : `${plainText(name)} (n = ${n})`;
    return [trace(some, title, isFirst(belongs), testMarker(look), FIRST + i)];
  });
  const bounds = (["y", "x"] as const).flatMap((axis): Trace[] => {
    const belongs = (one: MarkPoint): boolean => one.bound === axis;
    const some = own.filter(belongs);
    const n = points.filter(belongs).length;
    return some.length === 0
      ? []
      : [
          trace(
            some,
            `lower bound (${n})`,
            isFirst(belongs),
            censoredMarker(axis === "y" ? "up" : "right"),
            LAST,
          ),
        ];
  });
  // Below the failures, which they would hide.
  return [...bounds, ...marks];
}
