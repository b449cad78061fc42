import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, houseAxis, lineWidths, seriesLook } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { plainText } from "./text-width";

/** A curve as computed elsewhere; missing values (NaN) break the line. */
export interface Curve {
  readonly label: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
}

export interface LineFigure {
  readonly curves: readonly Curve[];
  readonly xTitle: string;
  readonly yTitle: string;
  /** A level that the curves are held against, drawn as a thin line and named in the legend. */
  readonly level?: { readonly value: number; readonly label: string };
  readonly steps?: boolean;
  readonly yRange?: readonly [number, number];
  readonly including?: readonly number[];
  readonly extra?: readonly Trace[];
  readonly alt: string;
}

/** Curves that differ by dash and gray, with their bands, on linear axes. */
export function lineFigure(text: FigureText, figure: LineFigure): Figure {
  const xRange = paddedRange(
    figure.curves.flatMap((curve) => curve.x),
    [],
    0.02,
  );
  const values = figure.curves.flatMap((curve) => [
    ...curve.y,
    ...(curve.lower ?? []),
    ...(curve.upper ?? []),
  ]);
  const including = [
    ...(figure.including ?? []),
    ...(figure.level === undefined ? [] : [figure.level.value]),
  ];
  const yRange = figure.yRange ?? paddedRange(values, including);
  const data = [
    ...(figure.level === undefined ? [] : [levelTrace(figure.level, xRange)]),
    ...figure.curves.flatMap((curve, i) => curveTraces(curve, i, figure.steps === true)),
    ...(figure.extra ?? []),
  ];
  const layout = frame(text, {
    defaultSize: "two-column",
    plotHeight: 270,
    legend: legendNames(data),
    parts: {
      xaxis: { ...houseAxis(figure.xTitle), range: xRange },
      yaxis: { ...houseAxis(figure.yTitle), range: [...yRange] },
    },
  });
  return figureOf(text, figure.alt, data, layout);
}

function levelTrace(
  level: { readonly value: number; readonly label: string },
  xRange: readonly [number, number],
): Trace {
  const line = { color: colours.ink, width: lineWidths.line };
  return {
    type: "scatter",
    mode: "lines",
    name: `${plainText(level.label)} ${shown(level.value)}`,
    x: [...xRange],
    y: [level.value, level.value],
    line,
    hoverinfo: "skip",
  };
}

function curveTraces(curve: Curve, index: number, steps: boolean): Trace[] {
  const look = seriesLook(index);
  const shape: PlotValue = steps ? "hv" : "linear";
  const { lower, upper } = curve;
  const edgeOf = (y: readonly number[], fill: boolean): Trace => ({
    type: "scatter",
    mode: "lines",
    x: [...curve.x],
    y: [...y],
    line: { width: 0, shape },
    ...(fill ? { fill: "tonexty", fillcolor: colours.band } : {}),
    showlegend: false,
    hoverinfo: "skip",
  });
  const band =
    lower === undefined || upper === undefined ? [] : [edgeOf(lower, false), edgeOf(upper, true)];
  const line = { color: look.edge, width: lineWidths.strong, dash: look.dash, shape };
  return [
    ...band,
    {
      type: "scatter",
      mode: "lines",
      name: plainText(curve.label),
      x: [...curve.x],
      y: curve.y.map((value) => (Number.isNaN(value) ? null : value)),
      line,
      hovertemplate: "%{x:.4~g}, %{y:.4~g}<extra>%{fullData.name}</extra>",
    },
  ];
}
