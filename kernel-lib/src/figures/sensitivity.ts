import type { Figure, FigureText } from "./figure";
import { figureOf } from "./figure";
import { frame, widestLabel } from "./frame";
import { colours, houseAxis } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { plainText } from "./text-width";

export interface SensitivityInput extends FigureText {
  /** Elasticity: change of the result in per cent for one per cent of the variable. */
  readonly elasticities: readonly { readonly label: string; readonly value: number }[];
  readonly measure?: string;
}

/** Elasticities as bars from zero, the strongest on top, each with its number. */
export function sensitivity(input: SensitivityInput): Figure {
  const sorted = input.elasticities.filter((one) => Number.isFinite(one.value)).sort((a, b) => Math.abs(b.value) - Math.abs(a.value));
  const labels = sorted.map((one) => plainText(one.label));
  const data = [
    {
      type: "bar" as const,
      orientation: "h",
      x: sorted.map((one) => one.value),
      y: sorted.map((_, i) => i),
      width: 0.6,
      marker: { color: sorted.map((one) => (one.value < 0 ? colours.paper : colours.mid)), line: { color: colours.ink, width: 1 } },
      hovertemplate: "%{x:.3f}<extra></extra>",
      showlegend: false,
    },
  ];
  const range = paddedRange(sorted.map((one) => one.value), [0], 0.16);
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, sorted.length) * 26,
    legend: [],
    margin: { left: widestLabel(labels) + 14 },
    parts: {
      xaxis: { ...houseAxis(input.measure ?? "Elasticity (% of capacity per % of variable)"), range, zeroline: true, zerolinecolor: colours.ink, zerolinewidth: 1 },
      yaxis: { ...houseAxis(""), range: [sorted.length - 0.5, -0.5], tickvals: sorted.map((_, i) => i), ticktext: labels, ticks: "", showgrid: false },
      annotations: sorted.map((one, y) => ({ x: one.value, y, xanchor: one.value < 0 ? "right" : "left", xshift: one.value < 0 ? -3 : 3, showarrow: false, text: shown(one.value, 2) })),
    },
  });
  return figureOf(input, `Elasticities: ${sorted.map((one) => `${one.label} ${shown(one.value, 2)}`).join(", ")}.`, data, layout);
}
