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

/** One cell of a plan: further failures, or the word that stands in place of a number. */
export type TestsNeededCell = number | "settled" | "open" | null;

export interface TestsNeededInput extends FigureText {
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  /** cells[row][column]; null where the combination is not planned for. */
  readonly cells: readonly (readonly TestsNeededCell[])[];
  readonly rowTitle: string;
  readonly columnTitle: string;
}

/**
 * How many further tests settle each verdict, over two variables: "settled" needs none, "open"
 * cannot be settled by the numbers looked at, a blank is not planned for.
 */
export function testsNeeded(input: TestsNeededInput): Figure {
  const numbers = input.cells.flat().filter((cell) => typeof cell === "number");
  const most = Math.max(1, ...numbers);
  const room = gridRoom(input.rows, input.columns.length, printWidth(input.size ?? "two-column"));
  const heads = columnHeads(input.columns, room.cellWidth);
  const each = <T>(of: (cell: TestsNeededCell) => T): T[][] =>
    input.rows.map((_, r) => input.columns.map((__, c) => of(input.cells[r]?.[c] ?? null)));
  const grid: NumberGrid = {
    rows: input.rows,
    columns: input.columns,
    shade: each((cell) =>
      cell === "open" ? 1 : typeof cell === "number" ? Math.sqrt(cell / most) : null,
    ),
    text: each((cell) => (cell === null ? "" : String(cell))),
    hover: "%{text}",
  };
  const layout = frame(input, {
    defaultSize: "two-column",
    // The title of the rows needs the height of four.
    plotHeight: Math.max(4, input.rows.length) * room.rows.rowHeight,
    legend: [],
    margin: { left: room.left, bottom: heads.height + 32 },
    parts: {
      xaxis: { ...gridAxis(input.columnTitle, heads.texts, "x"), tickangle: heads.angle },
      yaxis: gridAxis(input.rowTitle, room.rows.texts, "y"),
      annotations: gridNumbers(grid),
    },
  });
  const alt = `Further failures needed by ${input.rowTitle.toLowerCase()} and ${input.columnTitle.toLowerCase()}: ${numbers.length} cells with a number, ${input.cells.flat().filter((cell) => cell === "settled").length} settled, ${input.cells.flat().filter((cell) => cell === "open").length} that cannot be settled.`;
  return figureOf(input, alt, [gridTrace(grid)], layout);
}
