import { availableParallelism } from "node:os";
import { reviewNotebooks } from "../../notebook";
import type { NotebookReview, ReviewProgress, ReviewSessionOptions } from "../../notebook";
import { wholeNumber } from "../use/invalid-input";
import { reviewLine, reviewSummary } from "./print-review";

/** Reviews notebooks several at a time and tells of them as if one came after the other. */
export function reviewTogether(
  files: readonly string[],
  options: ReviewSessionOptions,
  say: (line: string) => void,
  jobs: string | undefined,
): Promise<NotebookReview[]> {
  return reviewNotebooks(files, {
    ...options,
    jobs: atATime(jobs),
    onProgress: (progress) => progressLines(progress).forEach((line) => say(line)),
  });
}

/** Two notebooks at a time unless said otherwise; one on a machine with one core. */
function atATime(jobs: string | undefined): number {
  return jobs === undefined ? Math.min(2, availableParallelism()) : wholeNumber("jobs", jobs);
}

function progressLines(progress: ReviewProgress): string[] {
  switch (progress.kind) {
    case "notebook-started":
      return [progress.file];
    case "cell-reviewed":
      return [reviewLine(progress.review, progress.cellCount)];
    case "notebook-reviewed":
      return reviewSummary(progress.review);
  }
}
