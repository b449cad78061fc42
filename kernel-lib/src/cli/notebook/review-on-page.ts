import { ReviewDesk, counted, serveReviewPage } from "../../notebook";
import type { NotebookReview, ReviewPageOptions, ReviewSessionOptions } from "../../notebook";

import type { ReviewDrafts } from "./review-drafts";

/**
 * Serves the review page until the reviewer ends it, closes it, or presses Ctrl-C; gives the
 * reviews.
 */
export async function reviewOnPage(
  files: readonly string[],
  options: ReviewSessionOptions,
  page: ReviewPageOptions,
  signal: AbortSignal,
  say: (line: string) => void,
  drafts: ReviewDrafts,
): Promise<NotebookReview[]> {
  const desk = await ReviewDesk.open(files, options);
  const restored = desk.restore((name, hash) => drafts.of(name, hash));
  if (restored > 0)
    say(`Taken over from ${drafts.file}: what was said of ${counted(restored, "cell")}.`);
  desk.keep = (...comment) => drafts.save(...comment);
  try {
    const served = await serveReviewPage(desk, page);
    say(
      `Open this address in a browser on this machine (to end the review: Ctrl-C here):\n${served.address}`,
    );
    const stopped = new Promise<string>((done) =>
      signal.aborted
        ? done("stopped")
        : signal.addEventListener("abort", () => done("stopped here"), { once: true }),
    );
    const why = await Promise.race([served.ended, stopped]);
    say(`The review has ended: ${why}.`);
    await served.close();
  } finally {
    await desk.close();
  }
  return desk.results();
}
