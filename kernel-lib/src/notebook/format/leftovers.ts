import { lstat, readdir, rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";

/** No write takes so long; a younger file may be another process's, still being written. */
const OLD_MS = 5 * 60_000;

/** The name of a file that is written beside `file` and then takes its place. */
export function freshName(file: string, mark: string): string {
  return join(dirname(file), `.${basename(file)}.${mark}`);
}

/**
 * Removes what writes of this file left beside it when they were killed: files of the very names
 * that `freshName` gives for a mark of eight hexadecimal digits, older than five minutes. Whatever
 * cannot be removed stays.
 */
export async function removeLeftovers(file: string): Promise<void> {
  const prefix = basename(freshName(file, ""));
  const names = await readdir(dirname(file)).catch(() => []);
  for (const name of names) {
    if (!name.startsWith(prefix) || !/^[0-9a-f]{8}$/.test(name.slice(prefix.length))) continue;
    const left = join(dirname(file), name);
    const found = await lstat(left).catch(() => undefined);
    if (found?.isFile() && Date.now() - found.mtimeMs > OLD_MS)
      await rm(left, { force: true }).catch(() => undefined);
  }
}
