import { VERDICT_WORDS } from "./cell-review";
import type { CellReview, CellVerdict, NotebookReview } from "./cell-review";

/** What a review comes to. */
export type ReviewOutcome = "not_reviewed" | "not_reproduced" | "excused" | "reproduced";

/**
 * Verdicts with which a result stands as recorded. A cell that its author excuses is not among
 * them.
 */
const HOLDING: readonly CellVerdict[] = ["same", "within_tolerance"];

/** Whether every cell stands as recorded, with no excuse needed. */
export function allHold(cells: readonly Pick<CellReview, "verdict">[]): boolean {
  return cells.every(({ verdict }) => HOLDING.includes(verdict));
}

/** The cells that are right only by the author's own excuse. */
export function excusedCells<Cell extends Pick<CellReview, "verdict">>(
  cells: readonly Cell[],
): Cell[] {
  return cells.filter(({ verdict }) => verdict === "excused");
}

/** The outcome of the cells reviewed so far; `cellCount` is that of the notebook. */
export function outcomeOf(
  cells: readonly Pick<CellReview, "verdict">[],
  cellCount: number,
): ReviewOutcome {
  if (cells.length === 0 && cellCount > 0) return "not_reviewed";
  if (allHold(cells)) return "reproduced";
  return allHold(cells.filter(({ verdict }) => verdict !== "excused"))
    ? "excused"
    : "not_reproduced";
}

/** The outcome in plain words, the same in terminal, page and report. */
export function outcomeWords({
  cells,
  cellCount,
}: Pick<NotebookReview, "cells" | "cellCount">): string {
  const soFar = cells.length < cellCount ? " so far" : "";
  switch (outcomeOf(cells, cellCount)) {
    case "not_reviewed":
      return "not reviewed";
    case "not_reproduced":
      return "NOT reproduced";
    case "reproduced":
      return `reproduced${soFar}`;
    case "excused":
      return `reproduced${soFar} except ${counted(excusedCells(cells).length, "cell")} excused by the author`;
  }
}

/** "1 cell", "2 cells". */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** How many cells have each verdict, such as "11 same", "1 CHANGED". */
export function verdictCounts(cells: readonly Pick<CellReview, "verdict">[]): string[] {
  return (Object.keys(VERDICT_WORDS) as CellVerdict[]).flatMap((verdict) => {
    const count = cells.filter((cell) => cell.verdict === verdict).length;
    return count === 0 ? [] : [`${count} ${VERDICT_WORDS[verdict]}`];
  });
}
