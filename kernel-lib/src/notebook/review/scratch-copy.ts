import { chmodSync, existsSync, statSync } from "node:fs";
import { cp, mkdir, mkdtemp, readdir, rm, symlink } from "node:fs/promises";
import { tmpdir } from "node:os";
import { basename, dirname, join, relative, resolve } from "node:path";
import { projectFolder } from "../run";
import { removeLeftScratch, scratchPrefix } from "./left-scratch";

export interface ScratchCopy {
  /** The copied notebook's folder, where the kernel works. */
  readonly folder: string;
  readonly project: string;
  readonly remove: () => Promise<void>;
}

/**
 * Copies what a notebook needs into a scratch folder: the notebook, the files beside it, and the
 * inputs; of these the files lose the permission to write, the folders keep it, so that whoever
 * owns a copy that was left behind can remove it. The scratch folder lies inside the project where
 * that can be written, so that packages are found as from the notebook's own place. Copies that
 * killed reviews left there are removed.
 */
export async function makeScratchCopy(
  notebook: string,
  inputs: readonly string[],
): Promise<ScratchCopy> {
  const folder = dirname(resolve(notebook));
  const project = projectFolder(folder);
  const scratch = await scratchFolder(project);
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
  for (const input of inputs) await makeReadOnly(join(scratch, input));
  return {
    folder: place,
    project: scratch,
    remove: () => rm(scratch, { recursive: true, force: true }),
  };
}

async function makeReadOnly(place: string): Promise<void> {
  if (!existsSync(place)) return;
  if (statSync(place).isDirectory())
    for (const entry of await readdir(place)) await makeReadOnly(join(place, entry));
  else chmodSync(place, 0o444);
}

/**
 * A folder inside the project; where one may not write there, one of the system's, from which the
 * project's packages are found by a link.
 */
async function scratchFolder(project: string): Promise<string> {
  const cache = join(project, ".cache");
  try {
    await mkdir(cache, { recursive: true });
    await removeLeftScratch(cache);
    return await mkdtemp(join(cache, scratchPrefix()));
  } catch {
    const elsewhere = await mkdtemp(join(tmpdir(), "code-comparison-review-"));
    const packages = join(project, "node_modules");
    if (existsSync(packages)) await symlink(packages, join(elsewhere, "node_modules"), "junction");
    return elsewhere;
  }
}
