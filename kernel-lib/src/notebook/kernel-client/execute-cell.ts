import { KernelDied } from "./kernel-client";
import type { KernelClient, OutputMessage } from "./kernel-client";

/** How a cell's execution ended. */
export interface CellOutcome {
  readonly status: "ok" | "error" | "timed_out" | "died" | "interrupted";
  /** Name and message of the error; for a dead or stopped kernel, what happened to it. */
  readonly ename?: string;
  readonly evalue?: string;
  readonly executionCount: number | null;
  /** False when the kernel is gone and the next cell needs a new one. */
  readonly kernelAlive: boolean;
}

export interface ExecuteLimits {
  /** Longest time a cell may run, in seconds. */
  readonly timeLimitSeconds: number;
  /** Time between the interrupt and the kill, in seconds. */
  readonly graceSeconds: number;
  /** Stops the cell as the time limit does. */
  readonly signal?: AbortSignal;
}

/**
 * Runs a cell within its time limit. When the limit is over the kernel is interrupted; that
 * stops a loop, also one after an `await` or in a timer, or a waiting promise, and leaves the
 * kernel alive. Code that does not heed it (a long call into a native module, any code on
 * Windows) ends with its kernel, which is killed after the grace.
 */
export async function executeCell(
  kernel: KernelClient,
  code: string,
  limits: ExecuteLimits,
  onOutput: (message: OutputMessage) => void,
): Promise<CellOutcome> {
  let stopped: "timed_out" | "interrupted" | undefined;
  let kill: NodeJS.Timeout | undefined;
  const stop = (why: "timed_out" | "interrupted"): void => {
    if (stopped) return;
    stopped = why;
    kernel.interrupt();
    kill = setTimeout(() => void kernel.kill(), limits.graceSeconds * 1000);
  };
  const onAbort = (): void => stop("interrupted");
  const limit = setTimeout(() => stop("timed_out"), limits.timeLimitSeconds * 1000);
  limits.signal?.addEventListener("abort", onAbort, { once: true });
  if (limits.signal?.aborted) stop("interrupted");
  try {
    const reply = await kernel.execute(code, onOutput);
    return outcomeOfReply(reply, stopped, limits);
  } catch (error) {
    if (!(error instanceof KernelDied)) throw error;
    const evalue = stopped ? stopMessage(stopped, limits, false) : error.message;
    return {
      status: stopped ?? "died",
      ename: stopped ? "TimeLimit" : "KernelDied",
      evalue,
      executionCount: null,
      kernelAlive: false,
    };
  } finally {
    clearTimeout(limit);
    clearTimeout(kill);
    limits.signal?.removeEventListener("abort", onAbort);
  }
}

function outcomeOfReply(
  reply: Record<string, unknown>,
  stopped: "timed_out" | "interrupted" | undefined,
  limits: ExecuteLimits,
): CellOutcome {
  const count = reply["execution_count"];
  const executionCount = typeof count === "number" ? count : null;
  if (reply["status"] === "ok") return { status: "ok", executionCount, kernelAlive: true };
  const ename = textOr(reply["ename"], "Error");
  if (stopped && ename === "Interrupted") {
    return {
      status: stopped,
      ename,
      evalue: stopMessage(stopped, limits, true),
      executionCount,
      kernelAlive: true,
    };
  }
  return {
    status: "error",
    ename,
    evalue: textOr(reply["evalue"], ""),
    executionCount,
    kernelAlive: true,
  };
}

function stopMessage(
  stopped: "timed_out" | "interrupted",
  limits: ExecuteLimits,
  alive: boolean,
): string {
  const reason =
    stopped === "timed_out"
      ? `the cell ran longer than its limit of ${limits.timeLimitSeconds} s`
      : "the run was stopped by the user";
  return alive
    ? `${reason} and was interrupted`
    : `${reason}, did not heed the interrupt within ${limits.graceSeconds} s, and its kernel was ended`;
}

function textOr(value: unknown, otherwise: string): string {
  return typeof value === "string" ? value : otherwise;
}
