import type { Figure, FigureText, Trace } from "./figure";
import { colours, lineWidths } from "./house-style";
import { lineFigure } from "./line-figure";
import { shown } from "./numbers";
import { plainText } from "./text-width";

export interface DesignCapacitiesInput extends FigureText {
  /**
   * Two codes: capacities in kN over the embedment in mm, and where another mode comes to govern
   * the design capacity.
   */
  readonly families: readonly {
    readonly label: string;
    readonly embedment: readonly number[];
    readonly nominal: readonly number[];
    readonly design: readonly number[];
    readonly modeChanges: readonly {
      readonly embedment: number;
      readonly capacity: number;
      readonly mode: string;
    }[];
  }[];
  /** Where the design curves cross. */
  readonly crossings: readonly { readonly embedment: number; readonly capacity: number }[];
  /** Embedment at which the two are compared, mm. */
  readonly at?: number;
}

/**
 * Nominal and design capacities of two codes along the embedment, with their crossings and changes
 * of the governing mode.
 */
export function designCapacities(input: DesignCapacitiesInput): Figure {
  const level = (name: "design" | "nominal") =>
    input.families.map((one) => ({
      label: `${one.label}, ${name}`,
      x: one.embedment,
      y: one[name],
    }));
  const changes = input.families.flatMap(({ label, modeChanges }, k) =>
    modeChanges.map(({ embedment, capacity, mode }): Trace =>
      mark(
        `${label}: ${mode} from ${shown(Math.round(embedment))} mm`,
        [{ embedment, capacity }],
        k === 0 ? "triangle-up" : "square",
      ),
    ),
  );
  const crossed =
    input.crossings.length === 0
      ? []
      : [mark("design curves cross", input.crossings, "circle-open", 11)];
  const top = Math.max(...input.families.flatMap(({ nominal }) => nominal.filter(Number.isFinite)));
  const line: Trace[] =
    input.at === undefined
      ? []
      : [
          {
            type: "scatter",
            mode: "lines",
            name: `compared at ${shown(input.at)} mm`,
            x: [input.at, input.at],
            y: [0, top],
            line: { color: colours.mid, width: lineWidths.line },
            hoverinfo: "skip",
          },
        ];
  return lineFigure(input, {
    // Each code keeps its shade: the looks of lines alternate in pairs.
    curves: [...level("design"), ...level("nominal").reverse()],
    xTitle: "Embedment (mm)",
    yTitle: "Capacity in tension (kN)",
    including: [0],
    extra: [...line, ...changes, ...crossed],
    alt: `Capacity in tension against embedment by ${input.families.map(({ label }) => label).join(" and ")}, nominal and design; ${input.crossings.length === 0 ? "the design curves do not cross" : `the design curves cross at ${input.crossings.map(({ embedment }) => `${shown(Math.round(embedment))} mm`).join(" and ")}`}.`,
  });
}

function mark(
  name: string,
  places: readonly { readonly embedment: number; readonly capacity: number }[],
  symbol: string,
  size: number = 8,
): Trace {
  return {
    type: "scatter",
    mode: "markers",
    name: plainText(name),
    x: places.map(({ embedment }) => embedment),
    y: places.map(({ capacity }) => capacity),
    marker: { symbol, size, color: colours.ink, line: { width: 1.5 } },
    hovertemplate: "%{x:.4~g} mm, %{y:.4~g} kN<extra>%{fullData.name}</extra>",
  };
}
