import type { Trace } from "./figure";
import { colours, lineWidths } from "./house-style";

type Range = readonly [number, number];
type Axes = { readonly [key: string]: string };

/** A thin horizontal line, e.g. at the ratio 1, drawn under the marks. */
export function levelLine(level: number, xRange: Range, axes: Axes = {}): Trace {
  return thinLine(xRange, [level, level], axes);
}

/** A thin vertical line under the marks. */
export function uprightLine(at: number, yRange: Range, axes: Axes = {}): Trace {
  return thinLine([at, at], yRange, axes);
}

function thinLine(x: Range, y: Range, axes: Axes): Trace {
  return {
    type: "scatter",
    mode: "lines",
    x: [...x],
    y: [...y],
    line: { color: colours.ink, width: lineWidths.line },
    showlegend: false,
    hoverinfo: "skip",
    ...axes,
  };
}
