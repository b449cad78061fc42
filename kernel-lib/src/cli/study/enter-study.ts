import { existsSync, mkdirSync, rmSync, statSync, symlinkSync } from "node:fs";
import { createRequire } from "node:module";
import { join, relative, resolve } from "node:path";
import { isStudy, projectRoot } from "../../face/project";
import { STUDY_FILE } from "../../face/study-settings";
import { libraryFolder } from "../../notebook";
import { asNamed, InvalidInput } from "../use/invalid-input";

/** Where the command was started, before a study's folder became the working folder. */
const startedIn = process.cwd();

/** A path as the user sees it, from where the command was started. */
export function fromStart(path: string): string {
  return relative(startedIn, path) || ".";
}

/**
 * Makes a study's folder the working folder, so that everything is read from there and written to
 * there, and lets its notebooks find this library.
 * @param place the study's folder; default: the working folder, or the nearest study above it
 * @returns the study's folder
 * @throws InvalidInput for a folder that is no study
 */
export function enterStudy(place?: string): string {
  if (place !== undefined && !isStudy(place) && !existsSync(join(place, "datasets")))
    throw new InvalidInput(
      `${place} is no study: it holds no ${STUDY_FILE}. Enter the folder of a study, or create one: code-comparison new ${place}`,
    );
  const root = asNamed(() => projectRoot(resolve(place ?? ".")));
  if (place !== undefined) process.chdir(root);
  if (isStudy(root)) readyForKernels(root);
  return root;
}

/** What kernels need of a study's folder: the library, and where the study itself lies. */
export function readyForKernels(root: string): void {
  process.env["CODE_COMPARISON_STUDY"] = root;
  linkLibrary(root);
}

/** Notebooks import kernel-lib: where it is not installed above the study, a link leads to it. */
function linkLibrary(root: string): void {
  const link = join(root, "node_modules", "kernel-lib");
  try {
    createRequire(join(root, "notebook.js")).resolve("kernel-lib/package.json");
    return;
  } catch {
    mkdirSync(join(root, "node_modules"), { recursive: true });
    // A link to a library that has moved since leads nowhere.
    if (statSync(link, { throwIfNoEntry: false }) === undefined) rmSync(link, { force: true });
    symlinkSync(libraryFolder(), link, "junction");
  }
}
