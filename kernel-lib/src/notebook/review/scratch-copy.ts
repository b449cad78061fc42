import { chmodSync, existsSync, statSync } from "node:fs";
import { cp, mkdir, mkdtemp, readdir, rm } from "node:fs/promises";
import { basename, dirname, join, relative, resolve } from "node:path";
import { projectFolder } from "../run";

export interface ScratchCopy {
  /** The copied notebook's folder, where the kernel works. */
  readonly folder: string;
  readonly project: string;
  readonly remove: () => Promise<void>;
}

/**
 * Copies what a notebook needs into a scratch folder: the notebook, the files beside it, and
 * the inputs, the latter without permission to write. The scratch folder lies inside the
 * project, so that packages are found from there as from the notebook's own place.
 */
export async function makeScratchCopy(
  notebook: string,
  inputs: readonly string[],
): Promise<ScratchCopy> {
  const folder = dirname(resolve(notebook));
  const project = projectFolder(folder);
  await mkdir(join(project, ".cache"), { recursive: true });
  const scratch = await mkdtemp(join(project, ".cache", "review-"));
  const place = join(scratch, relative(project, folder));
  await mkdir(place, { recursive: true });
  await cp(notebook, join(place, basename(notebook)));
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    // Small modules and data beside the notebook, but no other notebook and no folder of packages.
    if (entry.isFile() && !entry.name.endsWith(".ipynb"))
      await cp(join(folder, entry.name), join(place, entry.name));
  }
  for (const file of ["package.json", "package-lock.json", "study.json"]) {
    if (existsSync(join(project, file))) await cp(join(project, file), join(scratch, file));
  }
  for (const input of inputs) {
    const from = resolve(project, input);
    if (existsSync(from))
      await cp(from, join(scratch, relative(project, from)), { recursive: true });
  }
  await setWritable(scratch, inputs, false);
  return {
    folder: place,
    project: scratch,
    remove: async () => {
      await setWritable(scratch, inputs, true);
      await rm(scratch, { recursive: true, force: true });
    },
  };
}

async function setWritable(
  scratch: string,
  inputs: readonly string[],
  writable: boolean,
): Promise<void> {
  for (const input of inputs) {
    const place = join(scratch, input);
    if (!existsSync(place)) continue;
    if (writable) chmodSync(place, 0o755);
    if (statSync(place).isDirectory()) await setWritable(place, await readdir(place), writable);
    if (!writable) chmodSync(place, statSync(place).isDirectory() ? 0o555 : 0o444);
  }
}
