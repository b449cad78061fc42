import type { Figure, FigureText, Trace } from "./figure";
import { colours } from "./house-style";
import { type Curve, lineFigure } from "./line-figure";
import { plainText } from "./text-width";

export interface ModeCapacitiesInput extends FigureText {
  /** Capacity of each mode, kN, along the variable; NaN where it does not apply. */
  readonly curves: readonly Curve[];
  readonly xTitle: string;
  /** Where another mode comes to govern: the value and the capacity there, kN. */
  readonly changes?: readonly { readonly x: number; readonly y: number; readonly label: string }[];
}

/** The capacity of each mode along one variable: the lowest line governs. */
export function modeCapacities(input: ModeCapacitiesInput): Figure {
  return lineFigure(input, {
    curves: input.curves,
    xTitle: input.xTitle,
    yTitle: "Capacity (kN)",
    including: [0],
    extra: (input.changes ?? []).map((change): Trace => ({
      type: "scatter",
      mode: "markers",
      name: plainText(change.label),
      x: [change.x],
      y: [change.y],
      marker: { symbol: "circle-open", size: 11, color: colours.ink, line: { width: 1.5 } },
      hovertemplate: "%{x:.4~g}, %{y:.4~g} kN<extra>%{fullData.name}</extra>",
    })),
    alt: `Capacity along ${input.xTitle.charAt(0).toLowerCase()}${input.xTitle.slice(1)} by mode, the lowest governs: ${input.curves.map(({ label }) => label).join(", ")}.`,
  });
}
