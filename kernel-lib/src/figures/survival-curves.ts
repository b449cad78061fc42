import type { Figure, FigureText, Trace } from "./figure";
import { colours } from "./house-style";
import { type Curve, lineFigure } from "./line-figure";

/**
 * A survival curve: y is the estimated share of tests whose ratio exceeds x (product-limit
 * estimate).
 */
export interface SurvivalCurve extends Curve {
  readonly n: number;
  /** Ratios at which tests are censored, and the curve's height there: drawn as upright ticks. */
  readonly censoredX: readonly number[];
  readonly censoredY: readonly number[];
}

export interface SurvivalCurvesInput extends FigureText {
  readonly curves: readonly SurvivalCurve[];
  readonly xTitle?: string;
}

/**
 * Share of tests above each ratio, censored tests counted as lower bounds, as step curves with
 * their bands.
 */
export function survivalCurves(input: SurvivalCurvesInput): Figure {
  const curves = input.curves.map((curve) => ({
    ...curve,
    label: `${curve.label} (n = ${curve.n}, ${curve.censoredX.length} censored)`,
  }));
  const ticks: Trace = {
    type: "scatter",
    mode: "markers",
    name: "censored test",
    x: input.curves.flatMap((curve) => [...curve.censoredX]),
    y: input.curves.flatMap((curve) => [...curve.censoredY]),
    marker: { symbol: "line-ns", size: 9, line: { color: colours.ink, width: 1.25 } },
    hovertemplate: "censored at %{x:.3f}<extra></extra>",
  };
  return lineFigure(input, {
    curves,
    steps: true,
    xTitle: input.xTitle ?? "Test-to-predicted ratio (–)",
    yTitle: "Fraction of tests above (–)",
    yRange: [0, 1.04],
    extra: (ticks["x"] as readonly number[]).length > 0 ? [ticks] : [],
    alt: `Step curves of the fraction of tests above each test-to-predicted ratio for ${curves.map((curve) => curve.label).join(", ")}.`,
  });
}
