import { sampleQuantile } from "../statistics";
import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, houseAxis, lineWidths, printWidth } from "./house-style";
import { uprightLine } from "./level-line";
import { finite, paddedRange, shown } from "./numbers";
import { rowLabels } from "./row-labels";

/** Values of one group. */
export interface SpreadGroup {
  readonly label: string;
  readonly values: readonly number[];
  /** Lower bounds, which are counted beside the values and not drawn. */
  readonly lowerBounds: number;
}

export interface SpreadInput extends FigureText {
  readonly groups: readonly SpreadGroup[];
}

const ROW = 30;

/**
 * Scatter of each group: a line from the least to the largest value, a thick one between the
 * quartiles (Hyndman and Fan, type 8), the median and the mean.
 */
export function spread(input: SpreadInput): Figure {
  const rows = input.groups.map(({ label, values, lowerBounds }) => {
    const kept = finite(values);
    const at = (p: number): number => sampleQuantile(kept, p) ?? NaN;
    return {
      label,
      n: kept.length,
      lowerBounds,
      ends: [at(0), at(1)] as const,
      quartiles: [at(0.25), at(0.75)] as const,
      median: at(0.5),
      mean: kept.reduce((sum, value) => sum + value, 0) / kept.length,
    };
  });
  const known = rows.map((row, y) => ({ ...row, y })).filter(({ n }) => n > 0);
  const bar = (
    name: string,
    of: (row: (typeof known)[number]) => readonly [number, number],
    width: number,
    color: string,
  ): Trace => ({
    type: "scatter",
    mode: "lines",
    name,
    // A null between two lines lifts the pen.
    x: known.flatMap((row): PlotValue[] => [...of(row), null]),
    y: known.flatMap(({ y }): PlotValue[] => [y, y, null]),
    line: { color, width },
    hoverinfo: "x",
  });
  const mark = (
    name: string,
    of: (row: (typeof known)[number]) => number,
    marker: PlotValue,
  ): Trace => ({
    type: "scatter",
    mode: "markers",
    name,
    x: known.map(of),
    y: known.map(({ y }) => y),
    hovertemplate: `${name} %{x:.3f}<extra></extra>`,
    marker,
  });
  const yRange: [number, number] = [Math.max(1, rows.length) - 0.5, -0.5];
  const data = [
    uprightLine(1, yRange),
    bar("minimum to maximum", ({ ends }) => ends, lineWidths.line, colours.ink),
    bar("quartiles", ({ quartiles }) => quartiles, 9, colours.pale),
    mark("median", ({ median }) => median, {
      symbol: "line-ns",
      size: 11,
      line: { color: colours.ink, width: 2.25 },
    }),
    mark("mean", ({ mean }) => mean, {
      symbol: "diamond",
      size: 7,
      color: colours.paper,
      line: { color: colours.accent, width: 1.25 },
    }),
  ].filter((trace, i) => i === 0 || known.length > 0);
  const labels = rowLabels(
    rows.map(({ label, n, lowerBounds }) => ({
      label,
      detail: `n = ${n}${lowerBounds === 0 ? "" : `, ${lowerBounds} lower ${lowerBounds === 1 ? "bound" : "bounds"}`}`,
    })),
    printWidth(input.size ?? "two-column"),
    ROW,
  );
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, rows.length) * labels.rowHeight,
    legend: legendNames(data),
    margin: { left: labels.left, right: 12 },
    parts: {
      xaxis: {
        ...houseAxis("Test-to-predicted ratio (–)"),
        range: paddedRange(
          known.flatMap(({ ends }) => ends),
          [1],
        ),
      },
      yaxis: {
        ...houseAxis(""),
        range: yRange,
        tickvals: rows.map((_, i) => i),
        ticktext: labels.texts,
        ticks: "",
        showgrid: false,
      },
    },
  });
  const said = known.map(
    ({ label, n, median, quartiles }) =>
      `${label}: median ${shown(median)}, quartiles ${shown(quartiles[0])} and ${shown(quartiles[1])} (n = ${n})`,
  );
  return figureOf(
    input,
    `Spread of ratios in ${rows.length} groups; ${said.join("; ")}.`,
    data,
    layout,
  );
}
