import { basename } from "node:path";
import { printableLine } from "../../formula";
import type { RunProgress } from "../../notebook";

const STATUS_WORDS = {
  ok: "done",
  cached: "unchanged, read from the cache",
  error: "FAILED",
  timed_out: "FAILED: time limit",
  died: "FAILED: kernel ended",
  interrupted: "stopped",
} as const;

/**
 * One line a cell: number, title, outcome, seconds, and the time left at the present pace.
 */
export function progressLine(progress: RunProgress): string | undefined {
  switch (progress.kind) {
    case "notebook-started":
      return `${basename(progress.file)}: ${progress.cells} cells`;
    case "cell-started":
      return undefined;
    case "cell-finished": {
      const place = `[${progress.number}/${progress.cells}]`.padStart(9);
      const left = `about ${progress.remainingSeconds.toFixed(0)} s left`;
      return printableLine(
        `${place} ${progress.title}: ${STATUS_WORDS[progress.status]} in ${progress.seconds.toFixed(1)} s; ${left}`,
      );
    }
    case "notebook-finished":
      return `${basename(progress.file)}: ${progress.status} in ${progress.seconds.toFixed(1)} s`;
  }
}
