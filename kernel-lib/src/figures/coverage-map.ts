import type { Figure, FigureText } from "./figure";
import { figureOf } from "./figure";
import { frame, widestLabel } from "./frame";
import { fontSizes, printWidth } from "./house-style";
import { gridAxis, gridNumbers, gridTrace, type NumberGrid } from "./number-grid";
import { plainText, wrapText } from "./text-width";

export interface CoverageMapInput extends FigureText {
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  /** counts[row][column]: number of tests. */
  readonly counts: readonly (readonly number[])[];
  readonly rowTitle: string;
  readonly columnTitle: string;
}

/** Where there are tests and where none: counts over two variables; a cell without tests says "none". */
export function coverageMap(input: CoverageMapInput): Figure {
  const most = Math.max(1, ...input.counts.flat());
  const labels = input.rows.map(plainText);
  const left = widestLabel(labels) + 34;
  const room = (printWidth(input.size ?? "two-column") - left - 12) / Math.max(1, input.columns.length) - 6;
  const heads = input.columns.map((column) => wrapText(column, room, fontSizes.text).map(plainText));
  const grid: NumberGrid = {
    rows: input.rows,
    columns: input.columns,
    shade: input.rows.map((_, r) => input.columns.map((__, c) => Math.sqrt((input.counts[r]?.[c] ?? 0) / most))),
    text: input.rows.map((_, r) => input.columns.map((__, c) => ((input.counts[r]?.[c] ?? 0) === 0 ? "none" : String(input.counts[r]?.[c])))),
    hover: "%{text}",
  };
  const layout = frame(input, {
    defaultSize: "two-column",
    plotHeight: Math.max(2, input.rows.length) * 28,
    legend: [],
    margin: { left, bottom: Math.max(1, ...heads.map((lines) => lines.length)) * 14 + 32 },
    parts: {
      xaxis: gridAxis(input.columnTitle, heads.map((lines) => lines.join("<br>")), "x"),
      yaxis: gridAxis(input.rowTitle, labels, "y"),
      annotations: gridNumbers(grid),
    },
  });
  const bare = input.counts.flat().filter((count) => count === 0).length;
  const alt = `Number of tests by ${input.rowTitle.toLowerCase()} and ${input.columnTitle.toLowerCase()}; ${bare} of ${input.rows.length * input.columns.length} cells have none.`;
  return figureOf(input, alt, [gridTrace(grid)], layout);
}
