import type { Trace } from "./figure";
import { colours, lineWidths } from "./house-style";

/** A thin horizontal line, e.g. at the ratio 1, drawn under the marks. */
export function levelLine(
  level: number,
  xRange: readonly [number, number],
  axes: { readonly [key: string]: string } = {},
): Trace {
  const line = { color: colours.ink, width: lineWidths.line };
  return {
    type: "scatter",
    mode: "lines",
    x: [...xRange],
    y: [level, level],
    line,
    showlegend: false,
    hoverinfo: "skip",
    ...axes,
  };
}

/** A thin vertical line under the marks. */
export function uprightLine(
  at: number,
  yRange: readonly [number, number],
  axes: { readonly [key: string]: string } = {},
): Trace {
  const line = { color: colours.ink, width: lineWidths.line };
  return {
    type: "scatter",
    mode: "lines",
    x: [at, at],
    y: [...yRange],
    line,
    showlegend: false,
    hoverinfo: "skip",
    ...axes,
  };
}
