import type { FigureText, PlotValue } from "./figure";
import { fontSizes, houseAxis, printWidth } from "./house-style";
import { plainText, textWidth } from "./text-width";

/** A row-by-row arrangement of equal panels with common scales. */
export interface PanelGrid {
  readonly rows: number;
  readonly panelWidth: number;
  readonly plotHeight: number;
  /** Axes and panel titles for the layout. */
  readonly parts: { readonly [key: string]: PlotValue };
  readonly annotations: readonly PlotValue[];
  /** Names of the axes of the i-th panel, as traces refer to them. */
  axes(panel: number): { readonly xaxis: string; readonly yaxis: string };
}

interface PanelScales {
  readonly titles: readonly string[];
  readonly perRow: number;
  readonly panelHeight: number;
  readonly x: { readonly title: string; readonly range: readonly [number, number] };
  readonly y: { readonly title: string; readonly range: readonly [number, number] };
}

const gap = 14;
const rowGap = 46;

/** Panels a row, at most so many, of which the widest title fits above its panel. */
export function panelsPerRow(text: FigureText, titles: readonly string[], most: number): number {
  const width = printWidth(text.size ?? "two-column") - 52 - 12;
  const widest = Math.max(0, ...titles.map((title) => textWidth(title, fontSizes.text)));
  const fits = Math.floor((width + gap) / (widest + 2 * gap));
  return Math.max(1, Math.min(most, fits));
}

/** Small multiples: one panel a class, so that no more than one fit is ever drawn over another. */
export function panelGrid(text: FigureText, scales: PanelScales): PanelGrid {
  const count = scales.titles.length;
  const columns = Math.max(1, Math.min(scales.perRow, count));
  const rows = Math.max(1, Math.ceil(count / columns));
  const width = printWidth(text.size ?? "two-column") - 52 - 12;
  const plotHeight = rows * scales.panelHeight + (rows - 1) * rowGap;
  const panelWidth = (width - (columns - 1) * gap) / columns;
  const parts: Record<string, PlotValue> = {};
  const annotations: PlotValue[] = [];
  scales.titles.forEach((title, i) => {
    const column = i % columns;
    const row = Math.floor(i / columns);
    const suffix = i === 0 ? "" : String(i + 1);
    const left = (column * (panelWidth + gap)) / width;
    const top = 1 - (row * (scales.panelHeight + rowGap)) / plotHeight;
    const lowest = i + columns >= count;
    parts[`xaxis${suffix}`] = {
      ...houseAxis(lowest ? scales.x.title : ""),
      range: scales.x.range,
      domain: [left, left + panelWidth / width],
      anchor: `y${suffix}`,
      nticks: 6,
    };
    parts[`yaxis${suffix}`] = {
      ...houseAxis(column === 0 ? scales.y.title : ""),
      range: scales.y.range,
      domain: [Math.max(0, top - scales.panelHeight / plotHeight), top],
      anchor: `x${suffix}`,
      showticklabels: column === 0,
    };
    annotations.push({
      xref: "paper",
      yref: "paper",
      x: left,
      y: top,
      xanchor: "left",
      yanchor: "bottom",
      showarrow: false,
      text: plainText(title),
      font: { size: fontSizes.text },
    });
  });
  const axes = (panel: number): { xaxis: string; yaxis: string } => {
    const suffix = panel === 0 ? "" : String(panel + 1);
    return { xaxis: `x${suffix}`, yaxis: `y${suffix}` };
  };
  return { rows, panelWidth, plotHeight, parts, annotations, axes };
}
