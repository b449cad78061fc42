import type { PlotValue, Trace } from "./figure";
import { colours, fontSizes } from "./house-style";
import { type RowLabels, rowLabels } from "./row-labels";
import { plainText, textWidth, wrapText } from "./text-width";

/**
 * White to a grey blue that still lets a dark number be read; printed in black and white it is an
 * even grey scale.
 */
const scale: PlotValue = [
  [0, "#ffffff"],
  [1, "#7f9fbf"],
];

export interface NumberGrid {
  readonly columns: readonly string[];
  readonly rows: readonly string[];
  /** shade[row][column] from 0 to 1; null leaves the cell white. */
  readonly shade: readonly (readonly (number | null)[])[];
  /** text[row][column] printed in the cell. */
  readonly text: readonly (readonly string[])[];
  readonly hover: string;
}

/** A grid of shaded cells; positions are 0, 1, 2, … with the first row on top. */
export function gridTrace(grid: NumberGrid): Trace {
  return {
    type: "heatmap",
    x: grid.columns.map((_, i) => i),
    y: grid.rows.map((_, i) => i),
    z: grid.shade,
    text: grid.text,
    zmin: 0,
    zmax: 1,
    colorscale: scale,
    showscale: false,
    xgap: 1.5,
    ygap: 1.5,
    hovertemplate: `${grid.hover}<extra></extra>`,
  };
}

/** The printed numbers, one annotation a cell: sharp in every format and searchable in PDF. */
export function gridNumbers(
  grid: NumberGrid,
  bold: (row: number, column: number) => boolean = () => false,
): PlotValue[] {
  return grid.text.flatMap((line, row) =>
    line.flatMap((text, column) => {
      if (text === "") return [];
      const shownText = bold(row, column) ? `<b>${text}</b>` : text;
      return [
        {
          x: column,
          y: row,
          text: shownText,
          showarrow: false,
          font: { size: fontSizes.text, color: colours.ink },
        },
      ];
    }),
  );
}

/** Axes of a grid: category labels without ticks, the first row on top. */
export function gridAxis(
  title: string,
  labels: readonly string[],
  side: "x" | "y",
): { readonly [key: string]: PlotValue } {
  const ends = [-0.5, labels.length - 0.5];
  return {
    title: { text: title, standoff: 10, font: { size: fontSizes.text } },
    range: side === "y" ? [...ends].reverse() : ends,
    tickvals: labels.map((_, i) => i),
    ticktext: [...labels],
    tickfont: { size: fontSizes.text },
    tickangle: 0,
    ticks: "",
    showgrid: false,
    zeroline: false,
    showline: true,
    linecolor: colours.ink,
    linewidth: 0.75,
    mirror: true,
  };
}

export interface ColumnHeads {
  readonly texts: readonly string[];
  readonly angle: number;
  /** Height that they need, pixels. */
  readonly height: number;
}

/** Column labels wrapped to the width of a cell, or upright where a word would not fit. */
export function columnHeads(labels: readonly string[], cellWidth: number): ColumnHeads {
  const words = labels.flatMap((label) => label.split(/\s+/));
  if (words.some((word) => textWidth(word, fontSizes.text) > cellWidth - 4)) {
    return {
      texts: labels.map(plainText),
      angle: -90,
      height: Math.max(0, ...labels.map((label) => textWidth(label, fontSizes.text))) + 4,
    };
  }
  const lines = labels.map((label) =>
    wrapText(label, cellWidth - 4, fontSizes.text).map(plainText),
  );
  return {
    texts: lines.map((some) => some.join("<br>")),
    angle: 0,
    height: Math.max(1, ...lines.map((some) => some.length)) * 14,
  };
}

/** Columns as wide as what the row labels, wrapped, leave of the figure. */
export function gridRoom(
  labels: readonly string[],
  columns: number,
  figureWidth: number,
): { readonly rows: RowLabels; readonly left: number; readonly cellWidth: number } {
  const rows = rowLabels(
    labels.map((label) => ({ label })),
    figureWidth,
    28,
  );
  const left = rows.left + 20;
  return { rows, left, cellWidth: (figureWidth - left - 12) / Math.max(1, columns) };
}
