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

export interface CoverageMapInput extends FigureText {
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  /** counts[row][column]: number of tests. */
  readonly counts: readonly (readonly number[])[];
  readonly rowTitle: string;
  readonly columnTitle: string;
}

/**
 * Where there are tests and where none: counts over two variables; a cell without tests says
 * "none".
 */
export function coverageMap(input: CoverageMapInput): Figure {
  const most = Math.max(1, ...input.counts.flat());
  const room = gridRoom(input.rows, input.columns.length, printWidth(input.size ?? "two-column"));
  const heads = columnHeads(input.columns, room.cellWidth);
  const grid: NumberGrid = {
    rows: input.rows,
    columns: input.columns,
    shade: input.rows.map((_, r) =>
      input.columns.map((__, c) => Math.sqrt((input.counts[r]?.[c] ?? 0) / most)),
    ),
    text: input.rows.map((_, r) =>
      input.columns.map((__, c) =>
        (input.counts[r]?.[c] ?? 0) === 0 ? "none" : String(input.counts[r]?.[c]),
      ),
    ),
    hover: "%{text}",
  };
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, input.rows.length) * room.rows.rowHeight,
    legend: [],
    margin: { left: room.left, bottom: heads.height + 32 },
    parts: {
      xaxis: { ...gridAxis(input.columnTitle, heads.texts, "x"), tickangle: heads.angle },
      yaxis: gridAxis(input.rowTitle, room.rows.texts, "y"),
      annotations: gridNumbers(grid),
    },
  });
  const bare = input.counts.flat().filter((count) => count === 0).length;
  const alt = `Number of tests by ${input.rowTitle.toLowerCase()} and ${input.columnTitle.toLowerCase()}; ${bare} of ${input.rows.length * input.columns.length} cells have none.`;
  return figureOf(input, alt, [gridTrace(grid)], layout);
}
