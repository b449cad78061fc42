import type { Figure, FigureText, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame, legendNames } from "./frame";
import { colours, houseAxis, lineWidths } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { plainText } from "./text-width";

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
}

/** Candidate rules by economy and safety, named, with their number of constants; those that no other beats are filled. */
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
        marker: { symbol: best ? "circle" : "square", size: 8, color: best ? colours.accent : colours.paper, line: { color: best ? colours.accent : colours.ink, width: 1.25 } },
      },
    ];
  });
  const sorted = input.candidates.filter((one) => one.onFrontier).sort((a, b) => a.economy - b.economy);
  const line = { color: colours.accent, width: lineWidths.line, dash: "dot" };
  const path: Trace = { type: "scatter", mode: "lines", x: sorted.map((one) => one.economy), y: sorted.map((one) => one.safety), line, showlegend: false, hoverinfo: "skip" };
  const data = [path, ...marks];
  const x = paddedRange(input.candidates.map((one) => one.economy), [], 0.12);
  const middle = (x[0] + x[1]) / 2;
  // The names need room: one column is too narrow for them.
  const size = input.size === "one-column" ? "column-and-a-half" : (input.size ?? "two-column");
  const layout = frame({ ...input, size }, {
    defaultSize: "two-column",
    plotHeight: 290,
    legend: legendNames(data),
    parts: {
      xaxis: { ...houseAxis(input.economyTitle), range: x },
      yaxis: { ...houseAxis(input.safetyTitle), range: paddedRange(input.candidates.map((one) => one.safety), [], 0.12) },
      annotations: input.candidates.map((one) => {
        // The path falls to the right: above right and below left of a point are free of it.
        const side = one.economy < middle ? 1 : -1;
        return { x: one.economy, y: one.safety, xanchor: side > 0 ? "left" : "right", xshift: 6 * side, yshift: 9 * side, showarrow: false, text: `${plainText(one.label)} (${one.constants})` };
      }),
    },
  });
  const alt = `Candidates by economy and safety: ${input.candidates.map((one) => `${one.label} ${shown(one.economy)}, ${shown(one.safety)}`).join("; ")}; the number in brackets counts the constants of the rule.`;
  return figureOf(input, alt, data, layout);
}
