import type { Figure, FigureText, PlotValue, Trace } from "./figure";
import { figureOf } from "./figure";
import { frame } from "./frame";
import { colours, lineWidths } from "./house-style";
import { paddedRange } from "./numbers";
import { panelGrid, panelsPerRow } from "./panels";
import type { QqInput } from "./residual-plots";

/** One group: ordered values beside the quantiles of its distribution. */
export interface ProbabilityPanel extends Pick<
  QqInput,
  "theoretical" | "sample" | "line" | "yTitle"
> {
  readonly label: string;
}

export interface ProbabilityPlotsInput extends FigureText {
  readonly panels: readonly ProbabilityPanel[];
}

const PANEL_TITLE = 16;

/** Ordered values against normal quantiles, one panel a group, with the line of its distribution. */
export function probabilityPlots(input: ProbabilityPlotsInput): Figure {
  const { panels } = input;
  const x = paddedRange(panels.flatMap(({ theoretical }) => [...theoretical]));
  const y = paddedRange(panels.flatMap(({ sample }) => [...sample]));
  const titles = panels.map(({ label, sample }) => `${label} (n = ${sample.length})`);
  const most = input.size === "one-column" ? 1 : input.size === "column-and-a-half" ? 2 : 3;
  const grid = panelGrid(input, {
    titles,
    perRow: panelsPerRow(input, titles, most),
    panelHeight: 140,
    x: { title: "Standard normal quantile (–)", range: x },
    y: { title: [...new Set(panels.map(({ yTitle }) => yTitle))].join(" or "), range: y },
  });
  const line = { color: colours.accent, width: lineWidths.line, dash: "dash" };
  const marker: PlotValue = {
    symbol: "circle",
    size: 4.5,
    color: colours.mid,
    line: { color: colours.ink, width: 0.6 },
  };
  const data = panels.flatMap((panel, i): Trace[] => [
    {
      type: "scatter",
      mode: "lines",
      x,
      y: x.map((value) => panel.line.intercept + panel.line.slope * value),
      line,
      showlegend: false,
      hoverinfo: "skip",
      ...grid.axes(i),
    },
    {
      type: "scatter",
      mode: "markers",
      x: [...panel.theoretical],
      y: [...panel.sample],
      marker,
      showlegend: false,
      ...grid.axes(i),
    },
  ]);
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: panels.length === 0 ? 140 : grid.plotHeight,
    legend: [],
    parts: { ...grid.parts, annotations: [...grid.annotations] },
  });
  const margin = layout["margin"] as { readonly t: number };
  const alt = `Ordered values against normal quantiles in ${panels.length} panels: ${panels.map(({ label }) => label).join("; ")}.`;
  return figureOf(input, alt, data, {
    ...layout,
    height: layout.height + PANEL_TITLE,
    margin: { ...margin, t: margin.t + PANEL_TITLE },
  });
}
