import type { Figure, FigureText } from "./figure";
import { type Curve, lineFigure } from "./line-figure";

export interface ReliabilityInput extends FigureText {
  /** Reliability index over the ratio of live to dead load. */
  readonly curves: readonly Curve[];
  readonly target: number;
  readonly xTitle?: string;
}

/** Reliability index against the ratio of live to dead load, with the target. */
export function reliabilityAgainstLoadRatio(input: ReliabilityInput): Figure {
  return lineFigure(input, {
    curves: input.curves,
    xTitle: input.xTitle ?? "Live load / dead load (–)",
    yTitle: "Reliability index β (–)",
    level: { value: input.target, label: "target β =" },
    alt: `Reliability index against load ratio for ${input.curves.map((curve) => curve.label).join(", ")}, target ${input.target}.`,
  });
}
