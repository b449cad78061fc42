import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, fontSizes, houseAxis, lineWidths, printWidth } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { plainText, textWidth } from "./text-width";

export interface Candidate {
  readonly label: string;
  /** Larger is more economical. */
  readonly economy: number;
  /** Larger is safer. */
  readonly safety: number;
  /** Number of constants in the rule: fewer is simpler. */
  readonly constants: number;
  /** True where no other candidate is better in all respects. */
  readonly onFrontier: boolean;
}

export interface FrontierInput extends FigureText {
  readonly candidates: readonly Candidate[];
  readonly economyTitle: string;
  readonly safetyTitle: string;
  /** The safety that is asked for, drawn as a line with its words. */
  readonly required?: { readonly value: number; readonly label: string };
}

const PLOT_HEIGHT = 290;
/** Room beside the plotting area for the axis and its numbers. */
const SIDES = 64;

type Box = readonly [left: number, bottom: number, right: number, top: number];

/** The names, each beside its mark where it covers neither a mark nor a name placed before. */
function placedNames(
  candidates: readonly Candidate[],
  x: readonly [number, number],
  y: readonly [number, number],
  width: number,
): { readonly names: PlotValue[]; readonly leaders: Trace[] } {
  const room = width - SIDES;
  const at = candidates.map(
    (one) =>
      [
        ((one.economy - x[0]) / (x[1] - x[0])) * room,
        ((one.safety - y[0]) / (y[1] - y[0])) * PLOT_HEIGHT,
      ] as const,
  );
  const taken: Box[] = at.map(([px, py]) => [px - 5, py - 5, px + 5, py + 5]);
  const height = 1.3 * fontSizes.text;
  const leaders: Trace[] = [];
  const names = candidates.map((one, k): PlotValue => {
    const text = `${plainText(one.label)} (${one.constants})`;
    const wide = textWidth(text, fontSizes.text) + 4;
    const [px, py] = at[k] ?? [0, 0];
    const places = [14, 26, 38, 50, 62, 74].flatMap((up) =>
      [1, -1].flatMap((above) => [1, -1].map((side) => ({ side, up: above * up }))),
    );
    const boxOf = ({ side, up }: (typeof places)[number]): Box => [
      side > 0 ? px + 6 : px - 6 - wide,
      py + up - height / 2,
      side > 0 ? px + 6 + wide : px - 6,
      py + up + height / 2,
    ];
    const free = (box: Box): boolean =>
      box[0] >= 0 &&
      box[2] <= room &&
      box[1] >= 0 &&
      box[3] <= PLOT_HEIGHT &&
      !taken.some(
        (other) => box[0] < other[2] && other[0] < box[2] && box[1] < other[3] && other[1] < box[3],
      );
    const place = places.find((one) => free(boxOf(one))) ?? {
      side: px < room / 2 ? 1 : -1,
      up: 14,
    };
    taken.push(boxOf(place));
    // A name that had to go farther off is led to its mark; plotly's own arrow would be dashed in a
    // way that PDF has not.
    const end = [
      one.economy + ((6 * place.side) / room) * (x[1] - x[0]),
      one.safety + (place.up / PLOT_HEIGHT) * (y[1] - y[0]),
    ] as const;
    if (Math.abs(place.up) > 14)
      leaders.push({
        type: "scatter",
        mode: "lines",
        x: [one.economy, end[0]],
        y: [one.safety, end[1]],
        line: { color: colours.ink, width: 0.75 },
        showlegend: false,
        hoverinfo: "skip",
      });
    return {
      x: end[0],
      y: end[1],
      xanchor: place.side > 0 ? "left" : "right",
      yanchor: "middle",
      showarrow: false,
      bgcolor: "rgba(255,255,255,0.85)",
      borderpad: 0,
      text,
    };
  });
  return { names, leaders };
}

/**
 * Candidate rules by economy and safety, named, with their number of constants; those that no other
 * beats are filled.
 */
export function frontier(input: FrontierInput): Figure {
  const marks = [true, false].flatMap((best): Trace[] => {
    const some = input.candidates.filter((one) => one.onFrontier === best);
    if (some.length === 0) return [];
    return [
      {
        type: "scatter",
        mode: "markers",
        name: best ? "no other candidate is better in all respects" : "another candidate is better",
        x: some.map((one) => one.economy),
        y: some.map((one) => one.safety),
        text: some.map((one) => plainText(one.label)),
        hovertemplate: "%{text}<br>%{x:.3f}, %{y:.3f}<extra></extra>",
        marker: {
          symbol: best ? "circle" : "square",
          size: 8,
          color: best ? colours.accent : colours.paper,
          line: { color: best ? colours.accent : colours.ink, width: 1.25 },
        },
      },
    ];
  });
  // Simplicity has no axis: the path leads only through those that no other beats in the two that
  // are drawn.
  const sorted = input.candidates
    .filter(
      (one) =>
        one.onFrontier &&
        !input.candidates.some(
          (other) =>
            other !== one &&
            other.economy >= one.economy &&
            other.safety >= one.safety &&
            (other.economy > one.economy || other.safety > one.safety),
        ),
    )
    .sort((a, b) => a.economy - b.economy);
  const line = { color: colours.accent, width: lineWidths.line, dash: "dot" };
  const path: Trace = {
    type: "scatter",
    mode: "lines",
    x: sorted.map((one) => one.economy),
    y: sorted.map((one) => one.safety),
    line,
    showlegend: false,
    hoverinfo: "skip",
  };
  const x = paddedRange(
    input.candidates.map((one) => one.economy),
    [],
    0.12,
  );
  const needed: Trace[] = input.required
    ? [
        {
          type: "scatter",
          mode: "lines",
          name: plainText(input.required.label),
          x: [...x],
          y: [input.required.value, input.required.value],
          line: { color: colours.ink, width: lineWidths.line },
          hoverinfo: "skip",
        },
      ]
    : [];
  const y = paddedRange(
    input.candidates.map((one) => one.safety),
    input.required ? [input.required.value] : [],
    0.12,
  );
  // The names need room: one column is too narrow for them.
  const size = input.size === "one-column" ? "column-and-a-half" : (input.size ?? "two-column");
  const placed = placedNames(input.candidates, x, y, printWidth(size));
  const data = [...needed, ...placed.leaders, path, ...marks];
  const layout = frame(
    { ...input, size },
    {
      defaultSize: "two-column",
      plotHeight: PLOT_HEIGHT,
      legend: legendNames(data),
      parts: {
        xaxis: { ...houseAxis(input.economyTitle), range: x },
        yaxis: { ...houseAxis(input.safetyTitle), range: y },
        annotations: placed.names,
      },
    },
  );
  const alt = `Candidates by economy and safety: ${input.candidates.map((one) => `${one.label} ${shown(one.economy)}, ${shown(one.safety)}`).join("; ")}; the number in parentheses is the number of constants in the rule.`;
  return figureOf(input, alt, data, layout);
}
