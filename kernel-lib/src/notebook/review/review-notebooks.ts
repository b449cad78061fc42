import { inOrder, severalAtATime } from "../run";
import type { CellReview, NotebookReview } from "./cell-review";
import { reviewNotebook } from "./review-notebook";
import type { ReviewOptions } from "./review-notebook";

/** What a review of several notebooks tells while it goes on. */
export type ReviewProgress =
  | { readonly kind: "notebook-started"; readonly file: string }
  | {
      readonly kind: "cell-reviewed";
      readonly file: string;
      readonly review: CellReview;
      readonly cellCount: number;
    }
  | { readonly kind: "notebook-reviewed"; readonly file: string; readonly review: NotebookReview };

export interface ReviewNotebooksOptions extends Omit<
  ReviewOptions,
  "beforeCell" | "afterCell" | "startKernel"
> {
  /** Notebooks that are rerun at the same time. Default 1. */
  readonly jobs?: number;
  readonly onProgress?: (progress: ReviewProgress) => void;
}

/**
 * Reviews several notebooks, each in a fresh kernel and its own scratch copy, `jobs` at a time.
 * Results, and what progress tells, come in the order of the files, whichever review ends first.
 *
 * @throws NotebookProblem when a notebook cannot be read
 */
export async function reviewNotebooks(
  files: readonly string[],
  options: ReviewNotebooksOptions = {},
): Promise<NotebookReview[]> {
  const { jobs = 1, onProgress = () => undefined, ...reviewOptions } = options;
  const progress = inOrder<ReviewProgress>(files.length, onProgress);
  const reviews: NotebookReview[] = [];
  const work = async (index: number): Promise<void> => {
    const file = files[index] ?? "";
    const tell = progress.of(index);
    tell({ kind: "notebook-started", file });
    const review = await reviewNotebook(file, {
      ...reviewOptions,
      afterCell: (cell, cellCount) =>
        tell({ kind: "cell-reviewed", file, review: cell, cellCount }),
    });
    reviews[index] = review;
    tell({ kind: "notebook-reviewed", file, review });
    progress.finish(index);
  };
  await severalAtATime(files.length, jobs, work, () => options.signal?.aborted === true);
  return reviews;
}
