import type { Figure, FigureText } from "./figure";
import { type Curve, lineFigure } from "./line-figure";

export interface PowerInput extends FigureText {
  /** Power from 0 to 1 over the number of tests or over the true difference. */
  readonly curves: readonly Curve[];
  readonly xTitle: string;
  /** Power that is held to be enough; 0.8 by default (common practice). */
  readonly target?: number;
}

/**
 * Probability that a test plan finds a difference that exists, against its size or the number of
 * tests.
 */
export function power(input: PowerInput): Figure {
  return lineFigure(input, {
    curves: input.curves,
    xTitle: input.xTitle,
    yTitle: "Power (–)",
    yRange: [0, 1.04],
    level: { value: input.target ?? 0.8, label: "target" },
    alt: `Power against ${input.xTitle.toLowerCase()} for ${input.curves.map((curve) => curve.label).join(", ")}.`,
  });
}
