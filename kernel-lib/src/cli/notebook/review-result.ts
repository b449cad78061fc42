import { outcomeOf } from "../../notebook";
import type { NotebookReview } from "../../notebook";

/** Whether the notebook is reproduced but for cells that its author excuses. */
export function isExcused({ cells, cellCount }: NotebookReview): boolean {
  return outcomeOf(cells, cellCount) === "excused";
}

/** Whether every cell under review was rerun, holds, and is not questioned by the reviewer. */
export function holds(review: NotebookReview, acceptExcused: boolean, until = Infinity): boolean {
  const { reproduced, cells, cellCount } = review;
  return (
    cells.length >= Math.min(cellCount, until) &&
    (reproduced || (acceptExcused && isExcused(review))) &&
    !cells.some(({ opinion }) => opinion === "question")
  );
}

/** A review as data, without the outputs themselves. */
export function withoutOutputs(review: NotebookReview): object {
  return {
    ...review,
    outcome: outcomeOf(review.cells, review.cellCount),
    cells: review.cells.map(
      ({ recorded: _recorded, rerun: _rerun, source: _source, ...cell }) => cell,
    ),
  };
}
