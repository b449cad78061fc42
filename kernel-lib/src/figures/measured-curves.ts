import type { Figure, FigureText } from "./figure";
import { type Curve, lineFigure } from "./line-figure";

export interface MeasuredCurvesInput extends FigureText {
  readonly curves: readonly Curve[];
  /** With the unit, e.g. "Slip at the free end (mm)". */
  readonly xTitle: string;
  /** With the unit, e.g. "Bond stress (MPa)". */
  readonly yTitle: string;
}

/** Measured curves, e.g. bond stress against slip or load against displacement. */
export function curve(input: MeasuredCurvesInput): Figure {
  const alt = `${input.yTitle} against ${input.xTitle.toLowerCase()} for ${input.curves.map((one) => one.label).join(", ")}.`;
  return lineFigure(input, {
    curves: input.curves,
    xTitle: input.xTitle,
    yTitle: input.yTitle,
    including: [0],
    alt,
  });
}
