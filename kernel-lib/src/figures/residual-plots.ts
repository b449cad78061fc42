import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame } from "./frame";
import { colours, houseAxis, lineWidths } from "./house-style";
import { levelLine } from "./level-line";
import { paddedRange } from "./numbers";

const marker: PlotValue = {
  symbol: "circle",
  size: 5.5,
  color: colours.mid,
  line: { color: colours.ink, width: 0.75 },
};

function pairs(x: readonly number[], y: readonly number[]): { x: number[]; y: number[] } {
  const kept = x.map((_, i) => i).filter((i) => Number.isFinite(x[i]) && Number.isFinite(y[i]));
  return { x: kept.map((i) => x[i] as number), y: kept.map((i) => y[i] as number) };
}

export interface QqInput extends FigureText {
  /** Quantiles of the standard distribution, and the ordered sample beside them. */
  readonly theoretical: readonly number[];
  readonly sample: readonly number[];
  /** Line that the points follow if the distribution holds. */
  readonly line: { readonly slope: number; readonly intercept: number };
  readonly xTitle?: string;
  readonly yTitle: string;
}

/**
 * Ordered sample against the quantiles of a distribution: a straight row of points supports the
 * distribution.
 */
export function qq(input: QqInput): Figure {
  const points = pairs(input.theoretical, input.sample);
  const x = paddedRange(points.x);
  const fitted = x.map((value) => input.line.intercept + input.line.slope * value);
  const line = { color: colours.accent, width: lineWidths.line, dash: "dash" };
  const data: Trace[] = [
    { type: "scatter", mode: "lines", x, y: fitted, line, showlegend: false, hoverinfo: "skip" },
    { type: "scatter", mode: "markers", ...points, marker, showlegend: false },
  ];
  const title = `${input.xTitle ?? "Standard normal quantile (–)"}; n = ${points.x.length}`;
  return pointFigure(
    input,
    data,
    [title, x],
    [input.yTitle, paddedRange([...points.y, ...fitted])],
    `Quantile plot of ${points.x.length} values against a straight line.`,
  );
}

export interface ResidualsInput extends FigureText {
  readonly fitted: readonly number[];
  readonly residuals: readonly number[];
  readonly xTitle: string;
  readonly yTitle: string;
  /** Residual standard deviation; lines are drawn at ±2 of it. */
  readonly sd?: number;
}

/** Residuals against fitted values, with lines at zero and at ±2 standard deviations. */
export function residuals(input: ResidualsInput): Figure {
  const points = pairs(input.fitted, input.residuals);
  const x = paddedRange(points.x);
  const limits = input.sd === undefined ? [] : [-2 * input.sd, 2 * input.sd];
  const limit = { color: colours.quiet, width: lineWidths.line, dash: "dash" };
  const data: Trace[] = [
    levelLine(0, x),
    ...limits.map((level): Trace => ({ ...levelLine(level, x), line: limit })),
    { type: "scatter", mode: "markers", ...points, marker, showlegend: false },
  ];
  const title = `${input.xTitle}; n = ${points.x.length}`;
  return pointFigure(
    input,
    data,
    [title, x],
    [input.yTitle, paddedRange(points.y, [0, ...limits])],
    `Residuals of ${points.x.length} tests against fitted values.`,
  );
}

function pointFigure(
  text: FigureText,
  data: readonly Trace[],
  x: readonly [string, PlotValue],
  y: readonly [string, PlotValue],
  alt: string,
): Figure {
  const layout = frame(text, {
    defaultSize: "column-and-a-half",
    plotHeight: 250,
    legend: [],
    margin: { left: 58 },
    parts: {
      xaxis: { ...houseAxis(x[0]), range: x[1] },
      yaxis: { ...houseAxis(y[0]), range: y[1] },
    },
  });
  return figureOf(text, alt, data, layout);
}
