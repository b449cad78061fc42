import type { Trace } from "./figure";
import { colours, lineWidths, seriesLook } from "./house-style";

/** A fitted line with its band, as computed elsewhere: the figure draws and computes nothing. */
export interface FittedLine {
  /** Class that the line belongs to; the same name as in the points. */
  readonly series: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
}

/** Band first and line on top, in the look of the class. */
export function fitTraces(
  fit: FittedLine,
  index: number,
  axes: { readonly [key: string]: string } = {},
  showLegend: boolean = false,
): Trace[] {
  const look = seriesLook(index);
  const colour = look.edge === colours.ink ? colours.ink : colours.accent;
  const band: Trace[] =
    fit.lower === undefined || fit.upper === undefined
      ? []
      : [
          {
            type: "scatter",
            mode: "lines",
            x: [...fit.x, ...[...fit.x].reverse()],
            y: [...fit.upper, ...[...fit.lower].reverse()],
            fill: "toself",
            fillcolor: colours.band,
            line: { width: 0 },
            showlegend: false,
            hoverinfo: "skip",
            ...axes,
          },
        ];
  const line: Trace = {
    type: "scatter",
    mode: "lines",
    name: fit.series,
    x: [...fit.x],
    y: [...fit.y],
    line: { color: colour, width: lineWidths.strong, dash: look.dash },
    showlegend: showLegend,
    hoverinfo: "skip",
    ...axes,
  };
  return [...band, line];
}
