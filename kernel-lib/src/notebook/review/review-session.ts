import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { basename, dirname, resolve } from "node:path";
import { checkOutputs } from "../compare";
import type { FigureDrawer } from "../compare";
import { codeCells, readNotebook } from "../format";
import type { Notebook, NumberedCell } from "../format";
import { openSession, projectFolder, readRecord, recordEnvironment } from "../run";
import type { CellSession, RecordedEnvironment, RunOptions } from "../run";
import type { CellReview, NotebookReview } from "./cell-review";
import { compareEnvironments } from "./compare-environments";
import { evaluateExpression } from "./evaluate-expression";
import { excuseNotes, judgeCell } from "./judge-cell";
import { allHold } from "./outcome";
import { recordingNotes, unseenNotes } from "./notebook-notes";
import { makeScratchCopy } from "./scratch-copy";
import type { ScratchCopy } from "./scratch-copy";

/**
 * What notebooks can know of being reviewed: files of print need not be made, since none outlives
 * the scratch copy.
 */
const IN_REVIEW = { CODE_COMPARISON_KEEP: "plain" } as const;

export interface ReviewSessionOptions extends Pick<
  RunOptions,
  "timeLimitSeconds" | "graceSeconds" | "signal" | "heapLimitMB" | "startKernel"
> {
  /** Review the code cells up to this one. */
  readonly until?: number;
  /**
   * Relative tolerance for numbers. Default 1e-9; a cell's metadata `code_comparison.tolerance`
   * goes before it up to 1e-6, and what only a wider one accounts for is excused by the author.
   */
  readonly tolerance?: number;
  /** Draws figures anew from their data; without it drawings are compared with the rerun only. */
  readonly drawer?: FigureDrawer;
  /** Files and folders the notebook reads, from the project's folder. Default: datasets. */
  readonly inputs?: readonly string[];
}

/**
 * The default relative tolerance: far below any digit a study prints, far above rounding of sums.
 */
export const DEFAULT_TOLERANCE = 1e-9;

/** Longest wait, after the last cell, for timers that cells left behind. */
const SETTLE_MS = 2000;

/**
 * A review in steps: the notebook lies in a scratch copy with a fresh kernel, and each `runNext`
 * reruns one cell and compares it with its record. The notebook itself and its data are not
 * touched.
 *
 * @example
 * const session = await ReviewSession.open("notebooks/01-data-audit.ipynb");
 * while (session.next) console.log((await session.runNext())?.verdict);
 * await session.close();
 */
export class ReviewSession {
  readonly reviews: CellReview[] = [];
  readonly notes: string[];
  private readonly started = Date.now();
  private stopper: AbortController | undefined;
  private running: Promise<CellReview | undefined> | undefined;
  private concluded = false;

  private constructor(
    readonly name: string,
    readonly hash: string,
    readonly notebook: Notebook,
    /** The cells under review; `until` may leave some out. */
    readonly cells: readonly NumberedCell[],
    readonly reasons: readonly string[],
    private readonly options: ReviewSessionOptions,
    private readonly environment: RecordedEnvironment,
    private readonly scratch: ScratchCopy,
    private readonly kernel: CellSession,
  ) {
    this.notes = [
      ...recordingNotes(codeCells(notebook)),
      ...unseenNotes(notebook),
      ...cells.flatMap(excuseNotes),
    ];
  }

  /** @throws NotebookProblem when the notebook cannot be read */
  static async open(file: string, options: ReviewSessionOptions = {}): Promise<ReviewSession> {
    const notebook = await readNotebook(file);
    const hash = createHash("sha256")
      .update(await readFile(file))
      .digest("hex");
    const all = codeCells(notebook);
    const inputs = options.inputs ?? ["datasets"];
    const environment = await recordEnvironment(projectFolder(dirname(resolve(file))), inputs);
    const reasons = compareEnvironments(readRecord(notebook), environment);
    const scratch = await makeScratchCopy(file, inputs);
    try {
      const kernel = await openSession(scratch.folder, { ...options, environment: IN_REVIEW });
      return new ReviewSession(
        basename(file),
        hash,
        notebook,
        all.slice(0, options.until ?? all.length),
        reasons,
        options,
        environment,
        scratch,
        kernel,
      );
    } catch (error) {
      await scratch.remove();
      throw error;
    }
  }

  /** The cell that `runNext` will run; undefined after the last. */
  get next(): NumberedCell | undefined {
    return this.cells[this.reviews.length];
  }

  /** False when the kernel has ended: later cells can no longer run. */
  get alive(): boolean {
    return this.kernel.alive;
  }

  /**
   * Reruns the next cell and judges it; after the last cell it also waits for what cells left
   * running.
   */
  runNext(): Promise<CellReview | undefined> {
    if (this.running) throw new Error("a cell is running already");
    this.running = this.runCell().finally(() => (this.running = undefined));
    return this.running;
  }

  private async runCell(): Promise<CellReview | undefined> {
    const numbered = this.next;
    if (!numbered) return undefined;
    this.stopper = new AbortController();
    const run = this.alive
      ? await this.kernel.run(numbered, this.stopper.signal)
      : notReached(numbered);
    this.stopper = undefined;
    const check = await checkOutputs(run.outputs, this.options.drawer);
    this.notes.push(...check.notes.map((note) => `cell ${numbered.number}, ${note}`));
    this.reviews.push(
      judgeCell(numbered, run, this.options.tolerance ?? DEFAULT_TOLERANCE, check.differences),
    );
    if (!this.next) await this.conclude();
    return this.reviews[numbered.number - 1];
  }

  /** Interrupts the running cell; false when none is running. */
  stop(): boolean {
    this.stopper?.abort();
    return this.stopper !== undefined;
  }

  /**
   * An expression's value in the kernel, as the kernel shows it. What is more than a name is noted
   * in the review.
   */
  async evaluate(expression: string): Promise<string> {
    if (!this.alive) return "the kernel has ended";
    const { shown, mayAct, kernelAlive } = await evaluateExpression(this.kernel.kernel, expression);
    this.kernel.alive = kernelAlive;
    const note = `after cell ${this.reviews.length} the reviewer evaluated ${expression.trim()}`;
    if (mayAct && !this.notes.includes(note)) this.notes.push(note);
    return shown;
  }

  /** The review as it stands. */
  result(): NotebookReview {
    const reproduced =
      (this.reviews.length > 0 || this.cells.length === 0) && allHold(this.reviews);
    const { name, hash, reviews, reasons, notes } = this;
    return {
      name,
      hash,
      cells: reviews,
      reproduced,
      cellCount: codeCells(this.notebook).length,
      reasons,
      notes,
      seconds: (Date.now() - this.started) / 1000,
    };
  }

  /** Ends the kernel, removes the scratch copy, and gives the review. */
  async close(): Promise<NotebookReview> {
    try {
      this.stop();
      await this.running?.catch(() => undefined);
      await this.conclude();
      await this.kernel.close();
    } finally {
      await this.scratch.remove();
    }
    return this.result();
  }

  /** Late failures, and data files that the notebook wrote into. */
  private async conclude(): Promise<void> {
    if (this.concluded) return;
    this.concluded = true;
    if (this.alive) await this.kernel.kernel.settle(SETTLE_MS).catch(() => undefined);
    for (const run of this.kernel.runs) {
      const review = this.reviews[run.number - 1];
      // A rejection that came after its cell had been judged.
      if (review && run.status !== "ok" && review.verdict !== "failed") {
        this.reviews[run.number - 1] = {
          ...review,
          verdict: "failed",
          explanation: run.message ?? run.status,
          rerun: run.outputs,
        };
      }
    }
    const after = await recordEnvironment(
      this.scratch.project,
      this.options.inputs ?? ["datasets"],
    );
    if (JSON.stringify(after.inputs) !== JSON.stringify(this.environment.inputs))
      this.notes.push("the notebook wrote into its data files (in the scratch copy only)");
  }
}

function notReached({ number, title }: NumberedCell): Parameters<typeof judgeCell>[1] {
  return {
    number,
    title,
    status: "died",
    seconds: 0,
    message: "not run: the kernel had ended before",
    outputs: [],
    executionCount: null,
  };
}
