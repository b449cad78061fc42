import type { Figure, FigureText, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, houseAxis, lineWidths } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { plainText } from "./text-width";

export interface SizeFactor {
  /** Bar diameter, mm. */
  readonly size: number;
  readonly factor: number;
  readonly lower: number;
  readonly upper: number;
  readonly n: number;
}

export interface FactorAgainstSizeInput extends FigureText {
  readonly factors: readonly SizeFactor[];
  /** The simple rule that is proposed, as corner points of its graph. */
  readonly rule: {
    readonly label: string;
    readonly x: readonly number[];
    readonly y: readonly number[];
  };
  readonly intervalLabel?: string;
}

/**
 * The factor that the tests of each bar size call for, with its interval and n, and the simple rule
 * drawn through.
 */
export function factorAgainstSize(input: FactorAgainstSizeInput): Figure {
  const kept = input.factors.filter((one) => Number.isFinite(one.factor));
  const rule: Trace = {
    type: "scatter",
    mode: "lines",
    name: plainText(input.rule.label),
    x: [...input.rule.x],
    y: [...input.rule.y],
    line: { color: colours.accent, width: lineWidths.strong },
    hoverinfo: "skip",
  };
  const points: Trace = {
    type: "scatter",
    mode: "markers",
    name: input.intervalLabel ?? "factor from the tests with its interval",
    x: kept.map((one) => one.size),
    y: kept.map((one) => one.factor),
    error_y: {
      type: "data",
      symmetric: false,
      array: kept.map((one) => one.upper - one.factor),
      arrayminus: kept.map((one) => one.factor - one.lower),
      color: colours.ink,
      thickness: 1.25,
      width: 4,
    },
    marker: {
      symbol: "circle",
      size: 7,
      color: colours.paper,
      line: { color: colours.ink, width: 1.5 },
    },
    hovertemplate: "%{x:.4~g} mm: %{y:.3f}<extra></extra>",
  };
  const data = [rule, points];
  const [, top] = paddedRange(
    [...kept.flatMap((one) => [one.lower, one.upper]), ...input.rule.y],
    [0],
    0.08,
  );
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: 260,
    legend: legendNames(data),
    parts: {
      xaxis: {
        ...houseAxis("Bar diameter (mm)"),
        range: paddedRange([...kept.map((one) => one.size), ...input.rule.x]),
      },
      yaxis: { ...houseAxis("Modification factor (–)"), range: [0, top] },
      annotations: kept.map((one) => ({
        x: one.size,
        y: one.upper,
        yshift: 9,
        showarrow: false,
        text: `n = ${one.n}`,
      })),
    },
  });
  const alt = `Modification factor by bar diameter: ${kept.map((one) => `${one.size} mm ${shown(one.factor)}`).join(", ")}; rule: ${input.rule.label}.`;
  return figureOf(input, alt, data, layout);
}
