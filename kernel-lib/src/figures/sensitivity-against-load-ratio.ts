import type { Figure, FigureText } from "./figure";
import { type Curve, lineFigure } from "./line-figure";

export interface LoadSensitivityInput extends FigureText {
  /**
   * Squared sensitivity factor α² of each variable over the load ratio; the squares of one ratio
   * add to 1.
   */
  readonly curves: readonly Curve[];
  readonly xTitle?: string;
}

/**
 * Share of each variable in the scatter at the design point (α²) against the load ratio: what
 * governs the reliability.
 */
export function sensitivityAgainstLoadRatio(input: LoadSensitivityInput): Figure {
  return lineFigure(input, {
    curves: input.curves,
    xTitle: input.xTitle ?? "Live load / (dead + live load) (–)",
    yTitle: "Squared sensitivity factor α² (–)",
    yRange: [0, 1],
    alt: `Squared sensitivity factors against load ratio for ${input.curves.map((curve) => curve.label).join(", ")}.`,
  });
}
