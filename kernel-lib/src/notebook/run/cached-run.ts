import { readdir } from "node:fs/promises";
import { dirname, join, relative, resolve } from "node:path";
import { ResultCache, cellKeys } from "../cache";
import type { CachedCell } from "../cache";
import { tagsOf } from "../format";
import type { NumberedCell } from "../format";
import type { CellRun } from "./cell-session";
import { projectFolder, recordEnvironment } from "./recorded-environment";

/**
 * A cell with this tag has effects beyond its outputs (it writes files): its notebook always runs.
 */
export const NO_CACHE_TAG = "no-cache";

/** The part of the cache that concerns one run of one notebook. */
export interface NotebookCache {
  readonly find: () => Promise<CachedCell[] | undefined>;
  readonly keep: (runs: readonly CellRun[], languageInfo: unknown) => Promise<void>;
}

/**
 * Opens the cache for a notebook. Its results are used only when those of all cells are there:
 * a cell that must run needs the variables of every cell above it, so those run anyway.
 *
 * @returns undefined when a cell is tagged `no-cache`
 */
export async function openNotebookCache(
  file: string,
  cells: readonly NumberedCell[],
  inputs: readonly string[],
): Promise<NotebookCache | undefined> {
  if (cells.some(({ cell }) => tagsOf(cell).includes(NO_CACHE_TAG))) return undefined;
  const folder = dirname(resolve(file));
  const project = projectFolder(folder);
  // Modules and data beside the notebook count as its inputs.
  const beside = (await readdir(folder, { withFileTypes: true })).filter(
    (entry) => entry.isFile() && !entry.name.endsWith(".ipynb"),
  );
  const restsOn = await recordEnvironment(project, [
    ...inputs,
    ...beside.map((entry) => join(relative(project, folder), entry.name)),
  ]);
  const keys = cellKeys(cells, { ...restsOn, folder: relative(project, folder) });
  const cache = new ResultCache(join(project, ".cache", "cell-results"));
  return {
    find: () => cache.getAll(keys),
    keep: async (runs, languageInfo) => {
      if (runs.length !== keys.length || runs.some(({ status }) => status !== "ok")) return;
      for (const [index, { outputs, executionCount }] of runs.entries()) {
        await cache.put(keys[index] ?? "", { outputs, executionCount, languageInfo });
      }
    },
  };
}
