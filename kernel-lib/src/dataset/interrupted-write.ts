import { readdir, rename, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/** Names of the neighbouring folders that a write uses; the process id keeps two writers apart. */
export function writingFolders(folder: string): { readonly fresh: string; readonly old: string } {
  const at = (kind: string): string =>
    join(dirname(folder), `.${basename(folder)}.${kind}-${String(process.pid)}`);
  return { fresh: at("new"), old: at("old") };
}

/**
 * Puts the old data set back if a write was killed in the moment between moving it aside and moving
 * the new one in. Does nothing when the folder is there. @returns whether something was put back
 */
export async function restoreInterrupted(folder: string): Promise<boolean> {
  const parent = dirname(folder);
  const entries = await readdir(parent).catch(() => [] as string[]);
  if (entries.includes(basename(folder))) return false;
  const left = entries.filter((entry) => entry.startsWith(`.${basename(folder)}.old-`)).sort();
  const last = left[left.length - 1];
  if (last === undefined) return false;
  await rename(join(parent, last), folder);
  return true;
}

/** Removes what killed writers of this data set have left, once the folder itself is there. */
export async function removeLeftovers(folder: string): Promise<void> {
  const parent = dirname(folder);
  const entries = await readdir(parent).catch(() => [] as string[]);
  for (const entry of entries) {
    const pid = new RegExp(
      `^\\.${basename(folder).replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}\\.(?:new|old)-(\\d+)$`,
    ).exec(entry)?.[1];
    if (pid !== undefined && !isRunning(Number(pid)))
      await rm(join(parent, entry), { recursive: true, force: true });
  }
}

function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
