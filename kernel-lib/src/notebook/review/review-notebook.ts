import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";
import { codeCells, readNotebook } from "../format";
import type { NumberedCell } from "../format";
import { openSession, projectFolder, readRecord, recordEnvironment } from "../run";
import type { CellSession, RunOptions } from "../run";
import type { CellReview, NotebookReview } from "./cell-review";
import { compareEnvironments } from "./compare-environments";
import { judgeCell } from "./judge-cell";
import { makeScratchCopy } from "./scratch-copy";

export interface ReviewOptions extends Pick<RunOptions, "timeLimitSeconds" | "graceSeconds" | "signal" | "heapLimitMB" | "startKernel"> {
  /** Review the code cells up to this one. */
  readonly until?: number;
  /** Relative tolerance for numbers. Default 1e-9; a cell's metadata `code_comparison.tolerance` goes before it. */
  readonly tolerance?: number;
  /** Files and folders the notebook reads, from the project's folder. Default: datasets. */
  readonly inputs?: readonly string[];
  /** Called before each cell; returning false ends the review there. */
  readonly beforeCell?: (cell: NumberedCell, session: CellSession) => Promise<boolean>;
  /** Called after each cell. */
  readonly afterCell?: (review: CellReview, cellCount: number, session: CellSession) => Promise<void> | void;
}

/** The default relative tolerance: far below any digit a study prints, far above rounding of sums. */
export const DEFAULT_TOLERANCE = 1e-9;

/**
 * Reruns a notebook from top to bottom in a fresh kernel, in a scratch copy, and compares every
 * cell with what is recorded. The notebook itself and its data are not touched.
 *
 * @throws NotebookProblem when the notebook cannot be read
 */
export async function reviewNotebook(file: string, options: ReviewOptions = {}): Promise<NotebookReview> {
  const started = Date.now();
  const notebook = await readNotebook(file);
  const hash = createHash("sha256").update(await readFile(file)).digest("hex");
  const all = codeCells(notebook);
  const cells = all.slice(0, options.until ?? all.length);
  const inputs = options.inputs ?? ["datasets"];
  const environment = await recordEnvironment(projectFolder(dirname(resolve(file))), inputs);
  const scratch = await makeScratchCopy(file, inputs);
  const notes = recordingNotes(all);
  const reviews: CellReview[] = [];
  try {
    const session = await openSession(scratch.folder, options);
    try {
      for (const numbered of cells) {
        if (options.beforeCell && !(await options.beforeCell(numbered, session))) break;
        const review = session.alive ? judgeCell(numbered, await session.run(numbered), options.tolerance ?? DEFAULT_TOLERANCE) : notReached(numbered);
        reviews.push(review);
        await options.afterCell?.(review, cells.length, session);
        if (options.signal?.aborted) break;
      }
    } finally {
      await session.close();
    }
    markLateFailures(reviews, session);
    const after = await recordEnvironment(scratch.project, inputs);
    if (JSON.stringify(after.inputs) !== JSON.stringify(environment.inputs)) notes.push("the notebook wrote into its data files (in the scratch copy only)");
  } finally {
    await scratch.remove();
  }
  const reproduced = reviews.every(({ verdict }) => verdict === "same" || verdict === "within_tolerance" || verdict === "volatile");
  const reasons = compareEnvironments(readRecord(notebook), environment);
  return { name: basename(file), hash, cells: reviews, reproduced, cellCount: all.length, reasons, notes, seconds: (Date.now() - started) / 1000 };
}

function notReached({ cell, number, title }: NumberedCell): CellReview {
  return judgeCell({ cell, number, title }, { number, title, status: "died", seconds: 0, message: "not run: the kernel had ended before", outputs: [], executionCount: null }, 0);
}

/** A rejection that came after its cell had been judged. */
function markLateFailures(reviews: CellReview[], session: CellSession): void {
  for (const run of session.runs) {
    const at = reviews.findIndex(({ number }) => number === run.number);
    const review = reviews[at];
    if (review && run.status !== "ok" && review.verdict !== "failed") {
      reviews[at] = { ...review, verdict: "failed", explanation: run.message ?? run.status, rerun: run.outputs };
    }
  }
}

/** Whether the recorded run counters show one run from top to bottom. */
function recordingNotes(cells: readonly NumberedCell[]): string[] {
  const counts = cells.flatMap(({ cell }) => (cell.execution_count === null ? [] : [cell.execution_count]));
  const rising = counts.every((count, index) => index === 0 || count > (counts[index - 1] ?? 0));
  const complete = counts.length === 0 || counts[counts.length - 1] === counts.length;
  return rising && complete ? [] : ["the recorded run counters show that cells were run out of order or more than once before saving"];
}
