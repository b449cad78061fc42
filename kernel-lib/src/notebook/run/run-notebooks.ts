import { dirname, resolve } from "node:path";
import { inOrder, severalAtATime } from "./in-order";
import { KernelSupply } from "./kernel-supply";
import type { RunProgress } from "./progress";
import { runNotebook } from "./run-notebook";
import type { NotebookRun, RunOptions } from "./run-notebook";

export interface RunNotebooksOptions extends RunOptions {
  /** Notebooks that run at the same time. Default 1. */
  readonly jobs?: number;
}

/**
 * Runs several notebooks, each in a fresh kernel, `jobs` at a time. A notebook that fails stops
 * itself only. Results, and what progress tells, come in the order of the files, whichever
 * notebook ends first.
 */
export async function runNotebooks(
  files: readonly string[],
  options: RunNotebooksOptions = {},
): Promise<NotebookRun[]> {
  const supply = new KernelSupply(
    options.heapLimitMB === undefined ? {} : { heapLimitMB: options.heapLimitMB },
  );
  const progress = inOrder<RunProgress>(files.length, options.onProgress ?? (() => undefined));
  const jobs = options.jobs ?? 1;
  const results: NotebookRun[] = [];
  const work = async (index: number): Promise<void> => {
    const startKernel = async (folder: string): ReturnType<KernelSupply["take"]> => {
      const kernel = await supply.take(folder);
      const following = files[index + jobs];
      if (following !== undefined) supply.prepare(dirname(resolve(following)));
      return kernel;
    };
    results[index] = await runNotebook(files[index] ?? "", {
      ...options,
      onProgress: progress.of(index),
      startKernel,
    });
    progress.finish(index);
  };
  try {
    await severalAtATime(files.length, jobs, work, () => options.signal?.aborted === true);
  } finally {
    await supply.close();
  }
  return results;
}
