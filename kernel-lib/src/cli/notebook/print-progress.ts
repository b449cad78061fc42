import { basename } from "node:path";
import type { RunProgress } from "../../notebook";

const STATUS_WORDS = {
  ok: "done",
  cached: "from the cache",
  error: "FAILED",
  timed_out: "FAILED: time limit",
  died: "FAILED: kernel ended",
  interrupted: "stopped",
} as const;

/**
 * One line a cell: number, title, what became of it, seconds, and what is left at the pace so far.
 */
export function progressLine(progress: RunProgress): string | undefined {
  switch (progress.kind) {
    case "notebook-started":
      return `${basename(progress.file)}: ${progress.cells} cells`;
    case "cell-started":
      return undefined;
    case "cell-finished": {
      const place = `[${progress.number}/${progress.cells}]`.padStart(9);
      const times = `${progress.seconds.toFixed(2)} s, ${progress.elapsedSeconds.toFixed(1)} s so far, about ${progress.remainingSeconds.toFixed(0)} s left`;
      return `${place} ${progress.title.padEnd(60)} ${STATUS_WORDS[progress.status]}  (${times})`;
    }
    case "notebook-finished":
      return `${basename(progress.file)}: ${progress.status} in ${progress.seconds.toFixed(1)} s`;
  }
}
