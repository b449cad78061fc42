import type { Figure, FigureText } from "./figure";
import { figureOf } from "./figure";
import { frame } from "./frame";
import { printWidth } from "./house-style";
import {
  columnHeads,
  gridAxis,
  gridNumbers,
  gridRoom,
  gridTrace,
  type NumberGrid,
} from "./number-grid";

export interface ModeMapInput extends FigureText {
  /** Observed modes, one a row. */
  readonly observed: readonly string[];
  /** What the rows are called where several codes stand below one another; default the modes. */
  readonly rows?: readonly string[];
  /** Modes that the provisions predict to govern, one a column. */
  readonly predicted: readonly string[];
  /** counts[row][column]: tests with this observed and this predicted mode. */
  readonly counts: readonly (readonly number[])[];
}

/** Width of "133 (84 %)" in bold with some air; narrower cells show the count alone. */
const widestShare = 84;

/**
 * How often each observed failure mode was predicted as which: counts and shares of the row,
 * matching modes bold.
 */
export function modeMap(input: ModeMapInput): Figure {
  const { observed, predicted, counts } = input;
  const sums = observed.map((_, row) => (counts[row] ?? []).reduce((sum, count) => sum + count, 0));
  const share = (row: number, column: number): number =>
    (counts[row]?.[column] ?? 0) / (sums[row] ?? 0) || 0;
  const labels = (input.rows ?? observed).map((row, i) => `${row} (n\u00a0=\u00a0${sums[i] ?? 0})`);
  const room = gridRoom(labels, predicted.length, printWidth(input.size ?? "two-column"));
  const heads = columnHeads(predicted, room.cellWidth);
  const withShare = room.cellWidth > widestShare;
  const grid: NumberGrid = {
    columns: predicted,
    rows: observed,
    shade: observed.map((_, row) => predicted.map((__, column) => share(row, column))),
    text: observed.map((_, row) =>
      predicted.map((__, column) =>
        cellText(counts[row]?.[column] ?? 0, withShare ? share(row, column) : null),
      ),
    ),
    hover: "%{text}",
  };
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, observed.length) * Math.max(32, room.rows.rowHeight),
    legend: [],
    margin: { left: room.left, bottom: heads.height + 32 },
    parts: {
      xaxis: { ...gridAxis("Predicted to govern", heads.texts, "x"), tickangle: heads.angle },
      yaxis: gridAxis("Observed", room.rows.texts, "y"),
      annotations: gridNumbers(grid, (row, column) => observed[row] === predicted[column]),
    },
  });
  return figureOf(input, alternative(input, sums), [gridTrace(grid)], layout);
}

function cellText(count: number, share: number | null): string {
  if (count === 0) return "·";
  return share === null ? String(count) : `${count} (${Math.round(100 * share)} %)`;
}

function alternative(input: ModeMapInput, sums: readonly number[]): string {
  const total = sums.reduce((sum, count) => sum + count, 0);
  let agree = 0;
  input.observed.forEach((mode, row) => {
    const column = input.predicted.indexOf(mode);
    agree += column < 0 ? 0 : (input.counts[row]?.[column] ?? 0);
  });
  return `Observed failure mode by predicted governing mode for ${total.toLocaleString("en-US")} tests that are not excluded; the modes agree in ${agree.toLocaleString("en-US")}.`;
}
