import { availableParallelism } from "node:os";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { columnFunction, type LimitStateFormula } from "./limit-state";
import { transformColumn, type NormalSpaceColumn } from "./normal-space-columns";
import { blockCount, sampleBlocks, type SamplingPlan } from "./sampling-blocks";

/** All that a thread needs, as data. */
export interface SamplingTask {
  readonly plan: SamplingPlan;
  readonly columns: readonly NormalSpaceColumn[];
  readonly formula: LimitStateFormula;
}

/** What a thread is started with. */
export interface SamplingThreadData {
  readonly task: SamplingTask;
  readonly share: { readonly first: number; readonly step: number };
  /** Three numbers a block, shared by all threads; each writes its own blocks. */
  readonly blocks: SharedArrayBuffer;
}

const MOST_THREADS = 4;

/** Draws every block of a task in this thread and others; three numbers a block. */
export async function sampleInThreads(task: SamplingTask, threads: number = Math.min(MOST_THREADS, availableParallelism())): Promise<Float64Array> {
  const shared = new SharedArrayBuffer(8 * 3 * blockCount(task.plan));
  const step = Math.min(threads, blockCount(task.plan));
  const others = Array.from({ length: step - 1 }, (_, k) => inThread({ task, share: { first: k + 1, step }, blocks: shared }));
  const done = Promise.all(others);
  // A failure of a thread is met at the await below; until then it must not count as unhandled.
  done.catch(() => undefined);
  runShare({ task, share: { first: 0, step }, blocks: shared });
  await done;
  return new Float64Array(shared);
}

/** Draws the blocks of one thread. */
export function runShare({ task: { plan, columns, formula }, share, blocks }: SamplingThreadData): void {
  const transform = (k: number, v: Float64Array, x: Float64Array): void => transformColumn(columns[k] as NormalSpaceColumn, v, x);
  sampleBlocks(plan, transform, columnFunction(formula), share, new Float64Array(blocks));
}

function inThread(workerData: SamplingThreadData): Promise<void> {
  return new Promise((resolve, reject) => {
    const worker = new Worker(join(__dirname, "sampling-thread.js"), { workerData });
    worker.once("error", reject);
    worker.once("exit", (status) => (status === 0 ? resolve() : reject(new Error(`A thread of the simulation ended with status ${status}, expected 0.`))));
  });
}
