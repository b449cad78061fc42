import type { PlotValue, Trace } from "./figure";
import { censoredMarker, seriesLook, testMarker } from "./house-style";
import { plainText } from "./text-width";

/** A test as a point, with the class that it belongs to. */
export interface ClassedPoint {
  readonly x: number;
  readonly y: number;
  /** Class of a point, e.g. the bar material; it stands in the legend with its n. */
  readonly series: string;
  /** True where y is only a lower bound. */
  readonly censored: boolean;
  readonly label?: string;
}

/** The classes in order of first appearance. */
export function seriesOf(points: readonly { readonly series: string }[]): string[] {
  return [...new Set(points.map((point) => point.series))];
}

/**
 * One trace of markers a class, named "class (n = …)", and one of open triangles for all censored
 * tests. Points without both coordinates are left out.
 */
export function pointTraces(
  points: readonly ClassedPoint[],
  hover: string,
  axes: { readonly [key: string]: string } = {},
): Trace[] {
  const kept = points.filter((point) => Number.isFinite(point.x) && Number.isFinite(point.y));
  const trace = (some: readonly ClassedPoint[], name: string, marker: PlotValue): Trace => ({
    type: "scatter",
    mode: "markers",
    name,
    x: some.map((point) => point.x),
    y: some.map((point) => point.y),
    text: some.map((point) => plainText(point.label ?? point.series)),
    hovertemplate: `%{text}<br>${hover}<extra></extra>`,
    marker,
    ...axes,
  });
  const classes = seriesOf(points).map((series, i) => {
    const own = kept.filter((point) => point.series === series);
    const exact = own.filter((point) => !point.censored);
    return trace(exact, `${plainText(series)} (n = ${own.length})`, testMarker(seriesLook(i)));
  });
  const bounds = kept.filter((point) => point.censored);
  const open =
    bounds.length === 0
      ? []
      : [trace(bounds, `lower bound (${bounds.length})`, censoredMarker("up"))];
  return [...classes, ...open];
}
