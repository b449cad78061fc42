import type { Figure, FigureText } from "./figure";
import { figureOf } from "./figure";
import { frame } from "./frame";
import { colours, houseAxis, printWidth } from "./house-style";
import { paddedRange, shown } from "./numbers";
import { rowLabels } from "./row-labels";

export interface SensitivityInput extends FigureText {
  /** Elasticity: percent change of the result per 1 % change of the variable. */
  readonly elasticities: readonly { readonly label: string; readonly value: number }[];
  readonly measure?: string;
}

/** Elasticities as bars from zero, the strongest on top, each with its number. */
export function sensitivity(input: SensitivityInput): Figure {
  const sorted = input.elasticities
    .filter((one) => Number.isFinite(one.value))
    .sort((a, b) => Math.abs(b.value) - Math.abs(a.value));
  const width = printWidth(input.size ?? "two-column");
  const labels = rowLabels(sorted, width, 26);
  const data = [
    {
      type: "bar" as const,
      orientation: "h",
      x: sorted.map((one) => one.value),
      y: sorted.map((_, i) => i),
      width: 0.6,
      marker: {
        color: sorted.map((one) => (one.value < 0 ? colours.paper : colours.mid)),
        line: { color: colours.ink, width: 1 },
      },
      hovertemplate: "%{x:.3f}<extra></extra>",
      showlegend: false,
    },
  ];
  const range = paddedRange(
    sorted.map((one) => one.value),
    [0],
    Math.min(0.4, 110 / width),
  );
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, sorted.length) * labels.rowHeight,
    legend: [],
    margin: { left: labels.left },
    parts: {
      xaxis: {
        ...houseAxis(input.measure ?? "Elasticity (% of capacity per % of variable)"),
        range,
        zeroline: true,
        zerolinecolor: colours.ink,
        zerolinewidth: 1,
      },
      yaxis: {
        ...houseAxis(""),
        range: [sorted.length - 0.5, -0.5],
        tickvals: sorted.map((_, i) => i),
        ticktext: labels.texts,
        ticks: "",
        showgrid: false,
      },
      annotations: sorted.map((one, y) => ({
        x: one.value,
        y,
        xanchor: one.value < 0 ? "right" : "left",
        xshift: one.value < 0 ? -3 : 3,
        showarrow: false,
        text: shown(one.value, 3),
      })),
    },
  });
  return figureOf(
    input,
    `Elasticities: ${sorted.map((one) => `${one.label} ${shown(one.value, 3)}`).join(", ")}.`,
    data,
    layout,
  );
}
