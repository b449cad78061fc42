import { sourceOf } from "../format";
import type { CellOutput, NumberedCell } from "../format";
import { executeCell } from "../kernel-client";
import type { CellOutcome, KernelClient } from "../kernel-client";
import { OutputCollector } from "./collect-outputs";
import type { CellRunStatus } from "./progress";

/** What became of one cell. */
export interface CellRun {
  readonly number: number;
  readonly title: string;
  status: CellRunStatus;
  seconds: number;
  /** What failed, in one line; absent when nothing did. */
  message?: string;
  /** The outputs so far; a timer that the cell left behind can still add to them. */
  readonly outputs: CellOutput[];
  executionCount: number | null;
}

export interface SessionLimits {
  readonly timeLimitSeconds: number;
  readonly graceSeconds: number;
  readonly signal?: AbortSignal;
}

/** Longest wait, after the last cell, for timers that cells left behind. */
const SETTLE_MS = 2000;

/** One kernel working through the cells of one notebook, from top to bottom. */
export class CellSession {
  readonly runs: CellRun[] = [];
  /** False when the kernel has ended and no further cell can run. */
  alive = true;

  constructor(
    readonly kernel: KernelClient,
    private readonly limits: SessionLimits,
  ) {}

  /**
   * Runs the cell. Never rejects for what a cell does: that is told in the result. `stop` ends this
   * cell alone.
   */
  async run({ cell, number, title }: NumberedCell, stop?: AbortSignal): Promise<CellRun> {
    const collector = new OutputCollector();
    const run: CellRun = {
      number,
      title,
      status: "ok",
      seconds: 0,
      outputs: collector.outputs,
      executionCount: null,
    };
    this.runs.push(run);
    const source = sourceOf(cell);
    if (source.trim() === "") return run;
    const started = Date.now();
    const signals = [this.limits.signal, stop].filter((signal) => signal !== undefined);
    const limits =
      signals.length > 0 ? { ...this.limits, signal: AbortSignal.any(signals) } : this.limits;
    const outcome = await executeCell(this.kernel, source, limits, (message) => {
      collector.add(message);
      // An error that comes when the cell had already ended well: a rejection nobody handled.
      if (message.type === "error")
        markFailed(run, String(message.content["ename"]), String(message.content["evalue"]));
    });
    run.seconds = (Date.now() - started) / 1000;
    run.executionCount = outcome.executionCount;
    this.take(run, outcome, collector);
    return run;
  }

  /**
   * Waits for what the cells left running, so that a late failure is not missed; then ends the
   * kernel.
   */
  async close(): Promise<void> {
    if (this.alive) await this.kernel.settle(SETTLE_MS).catch(() => undefined);
    await this.kernel.shutdown();
  }

  private take(run: CellRun, outcome: CellOutcome, collector: OutputCollector): void {
    this.alive = outcome.kernelAlive;
    if (outcome.status === "ok") return;
    run.status = outcome.status;
    const ename = outcome.ename ?? "Error";
    const evalue = outcome.evalue ?? "";
    run.message = outcome.status === "error" ? `${ename}: ${evalue}` : evalue;
    // A dead kernel could not put its own error into the cell.
    if (!outcome.kernelAlive)
      collector.add({
        type: "error",
        content: { ename, evalue, traceback: [`${ename}: ${evalue}`] },
      });
  }
}

function markFailed(run: CellRun, ename: string, evalue: string): void {
  run.status = "error";
  run.message = `${ename}: ${evalue}`;
}
