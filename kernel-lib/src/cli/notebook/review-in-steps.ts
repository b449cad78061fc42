import { reviewNotebook } from "../../notebook";
import type { NotebookReview, ReviewSessionOptions } from "../../notebook";
import { reviewSummary } from "./print-review";
import type { Stepping } from "./step-review";

/** One notebook after the other, as the reviewer steps through their cells. */
export async function reviewStepping(
  files: readonly string[],
  options: ReviewSessionOptions,
  say: (line: string) => void,
  stepping: Stepping,
): Promise<NotebookReview[]> {
  const reviews: NotebookReview[] = [];
  for (const file of files) {
    if (options.signal?.aborted || stepping.ended()) break;
    say(`${file}`);
    const review = await reviewNotebook(file, {
      ...options,
      afterCell: stepping.afterCell,
      beforeCell: stepping.beforeCell,
    });
    reviews.push(review);
    reviewSummary(review).forEach((line) => say(line));
  }
  return reviews;
}
