import { dirname, resolve } from "node:path";
import { KernelSupply } from "./kernel-supply";
import type { OnProgress, RunProgress } from "./progress";
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
export async function runNotebooks(files: readonly string[], options: RunNotebooksOptions = {}): Promise<NotebookRun[]> {
  const supply = new KernelSupply(options.heapLimitMB === undefined ? {} : { heapLimitMB: options.heapLimitMB });
  const progress = inOrder(files.length, options.onProgress ?? (() => undefined));
  const results: NotebookRun[] = [];
  let next = 0;
  const work = async (): Promise<void> => {
    for (let index = next++; index < files.length && !options.signal?.aborted; index = next++) {
      const file = files[index] ?? "";
      const startKernel = async (folder: string): ReturnType<KernelSupply["take"]> => {
        const kernel = await supply.take(folder);
        const following = files[next];
        if (following !== undefined) supply.prepare(dirname(resolve(following)));
        return kernel;
      };
      results[index] = await runNotebook(file, { ...options, onProgress: progress.of(index), startKernel });
      progress.finish(index);
    }
  };
  try {
    const workers = Math.max(1, Math.min(options.jobs ?? 1, files.length));
    await Promise.all(Array.from({ length: workers }, work));
  } finally {
    await supply.close();
  }
  return results;
}

/** Passes progress on as if the notebooks ran one after the other. */
function inOrder(count: number, pass: OnProgress): { of: (index: number) => OnProgress; finish: (index: number) => void } {
  const held: RunProgress[][] = Array.from({ length: count }, () => []);
  const finished = new Set<number>();
  let current = 0;
  return {
    of: (index) => (progress) => (index === current ? pass(progress) : void held[index]?.push(progress)),
    finish: (index) => {
      finished.add(index);
      while (finished.has(current)) {
        current += 1;
        for (const progress of held[current]?.splice(0) ?? []) pass(progress);
      }
    },
  };
}
