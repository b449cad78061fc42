import type { Figure, FigureText } from "./figure";
import { type Curve, lineFigure } from "./line-figure";

export interface ModeCapacitiesInput extends FigureText {
  /** Capacity of each mode, kN, along the variable; NaN where it does not apply. */
  readonly curves: readonly Curve[];
  readonly xTitle: string;
}

/** The capacity of each mode along one variable: the lowest line governs. */
export function modeCapacities(input: ModeCapacitiesInput): Figure {
  return lineFigure(input, {
    curves: input.curves,
    xTitle: input.xTitle,
    yTitle: "Capacity (kN)",
    including: [0],
    alt: `Capacity along ${input.xTitle.toLowerCase()} by mode, the lowest governs: ${input.curves.map(({ label }) => label).join(", ")}.`,
  });
}
