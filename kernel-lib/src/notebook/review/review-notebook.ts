import type { NumberedCell } from "../format";
import type { CellReview, NotebookReview } from "./cell-review";
import { ReviewSession } from "./review-session";
import type { ReviewSessionOptions } from "./review-session";

export interface ReviewOptions extends ReviewSessionOptions {
  /** Called before each cell; returning false ends the review there. */
  readonly beforeCell?: (cell: NumberedCell, session: ReviewSession) => Promise<boolean>;
  /** Called after each cell. */
  readonly afterCell?: (
    review: CellReview,
    cellCount: number,
    session: ReviewSession,
  ) => Promise<void> | void;
}

/**
 * Reruns a notebook from top to bottom in a fresh kernel, in a scratch copy, and compares every
 * cell with what is recorded. The notebook itself and its data are not touched.
 *
 * @throws NotebookProblem when the notebook cannot be read
 */
export async function reviewNotebook(
  file: string,
  options: ReviewOptions = {},
): Promise<NotebookReview> {
  const session = await ReviewSession.open(file, options);
  try {
    while (session.next && !options.signal?.aborted) {
      if (options.beforeCell && !(await options.beforeCell(session.next, session))) break;
      const review = await session.runNext();
      if (review) await options.afterCell?.(review, session.cells.length, session);
    }
  } finally {
    await session.close();
  }
  return session.result();
}
