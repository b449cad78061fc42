import { chmodSync } from "node:fs";
import { readdir, rm, stat } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";

const NAME = /^review-(?:(\w+)-(\d+)-)?[^-]+$/;

/** Copies of another machine, or of an unknown process, are left alone for so long. */
const STALE_MS = 24 * 60 * 60 * 1000;

/** The beginning of a scratch folder's name: the machine and process that it belongs to. */
export function scratchPrefix(): string {
  return `review-${machine()}-${process.pid}-`;
}

/**
 * Removes the scratch copies whose review was killed. One that cannot be removed is left: it is in
 * nobody's way.
 */
export async function removeLeftScratch(cache: string): Promise<void> {
  for (const name of await readdir(cache)) {
    const found = NAME.exec(name);
    const place = join(cache, name);
    if (!found || !(await isLeft(place, found[1], Number(found[2])))) continue;
    await allowRemoval(place).catch(() => undefined);
    await rm(place, { recursive: true, force: true }).catch(() => undefined);
  }
}

async function isLeft(place: string, owner: string | undefined, pid: number): Promise<boolean> {
  if (owner === machine()) return !isAlive(pid);
  const made = await stat(place).catch(() => undefined);
  return made !== undefined && Date.now() - made.mtimeMs > STALE_MS;
}

function machine(): string {
  return hostname().replace(/\W/g, "").slice(0, 24) || "here";
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

/** A notebook, or an earlier version of this program, may have closed a folder to writing. */
async function allowRemoval(folder: string): Promise<void> {
  chmodSync(folder, 0o755);
  for (const entry of await readdir(folder, { withFileTypes: true }))
    if (entry.isDirectory()) await allowRemoval(join(folder, entry.name));
}
