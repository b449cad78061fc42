import type { Figure, FigureText } from "./figure";
import { figureOf } from "./figure";
import { frame, widestLabel } from "./frame";
import { fontSizes, printWidth } from "./house-style";
import { gridAxis, gridNumbers, gridTrace, type NumberGrid } from "./number-grid";
import { plainText, wrapText } from "./text-width";

export interface ModeMapInput extends FigureText {
  /** Observed modes, one a row. */
  readonly observed: readonly string[];
  /** Modes that the provisions predict to govern, one a column. */
  readonly predicted: readonly string[];
  /** counts[row][column]: tests with this observed and this predicted mode. */
  readonly counts: readonly (readonly number[])[];
}

const rowHeight = 32;
const columnTitleRoom = 20;

/** How often each observed failure mode was predicted as which: counts and shares of the row, matching modes bold. */
export function modeMap(input: ModeMapInput): Figure {
  const { observed, predicted, counts } = input;
  const sums = observed.map((_, row) => (counts[row] ?? []).reduce((sum, count) => sum + count, 0));
  const share = (row: number, column: number): number => ((counts[row]?.[column] ?? 0) / (sums[row] ?? 0)) || 0;
  const rowLabels = observed.map((mode, row) => `${plainText(mode)} (n = ${sums[row] ?? 0})`);
  const left = widestLabel(rowLabels) + 34;
  const room = (printWidth(input.size ?? "two-column") - left - 12) / Math.max(1, predicted.length) - 6;
  const columnLines = predicted.map((mode) => wrapText(mode, room, fontSizes.text).map(plainText));
  const lines = Math.max(1, ...columnLines.map((some) => some.length));
  const grid: NumberGrid = {
    columns: predicted,
    rows: observed,
    shade: observed.map((_, row) => predicted.map((__, column) => share(row, column))),
    text: observed.map((_, row) => predicted.map((__, column) => cellText(counts[row]?.[column] ?? 0, share(row, column)))),
    hover: "%{text}",
  };
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, observed.length) * rowHeight,
    legend: [],
    margin: { left, bottom: lines * 14 + columnTitleRoom + 12 },
    parts: {
      xaxis: gridAxis("Predicted to govern", columnLines.map((some) => some.join("<br>")), "x"),
      yaxis: gridAxis("Observed", rowLabels, "y"),
      annotations: gridNumbers(grid, (row, column) => observed[row] === predicted[column]),
    },
  });
  return figureOf(input, alternative(input, sums), [gridTrace(grid)], layout);
}

function cellText(count: number, share: number): string {
  return count === 0 ? "·" : `${count} (${Math.round(100 * share)} %)`;
}

function alternative(input: ModeMapInput, sums: readonly number[]): string {
  const total = sums.reduce((sum, count) => sum + count, 0);
  let agree = 0;
  input.observed.forEach((mode, row) => {
    const column = input.predicted.indexOf(mode);
    agree += column < 0 ? 0 : (input.counts[row]?.[column] ?? 0);
  });
  return `Observed failure mode by predicted governing mode for ${total} tests; the modes agree in ${agree}.`;
}
