import { createHash } from "node:crypto";
import { existsSync, readFileSync } from "node:fs";
import { readFile, readdir } from "node:fs/promises";
import { dirname, join, relative, resolve, sep } from "node:path";
import { resolvePackageFile } from "../kernel-client";

/**
 * What a notebook's recorded outputs rest on. No date, no machine's path: a rerun records the same
 * bytes.
 */
export interface RecordedEnvironment {
  /** Version of Node. */
  readonly node: string;
  /** Version of tslab, whose compiler and executor run the cells. */
  readonly tslab: string;
  /** SHA-256 over the library's built files. */
  readonly library: string;
  /** SHA-256 of the nearest package-lock.json; empty when there is none. */
  readonly lock_file: string;
  /** SHA-256 of each input file, by its path from the project's folder. */
  readonly inputs: Readonly<Record<string, string>>;
}

/**
 * Takes down what a run rests on.
 *
 * @param project the project's folder; paths of inputs are given from there
 * @param inputs files or folders, from the project's folder
 */
export async function recordEnvironment(
  project: string,
  inputs: readonly string[],
): Promise<RecordedEnvironment> {
  const library = libraryFolder();
  const built = await listFiles([join(library, "dist"), join(library, "kernel")]);
  const used = await listFiles(inputs.map((input) => resolve(project, input)));
  // A study of one's own may lie inside the folder that the library is installed in.
  const locked = nearestWith(project, ["package-lock.json"]);
  return {
    node: process.versions.node,
    tslab: versionOf(resolvePackageFile("tslab", "package.json")),
    library: await hashTogether(
      library,
      built.filter((file) => /\.(c?js|json)$/.test(file)),
    ),
    lock_file: locked === undefined ? "" : await hashFile(join(locked, "package-lock.json")),
    inputs: await hashEach(project, used),
  };
}

/** Files that mark the folder of a study or of a project. */
const MARKS = ["study.json", "package-lock.json"];

/**
 * The nearest folder at or above `start` with a study.json or package-lock.json; `start` itself
 * when there is none.
 */
export function projectFolder(start: string): string {
  return nearestWith(start, MARKS) ?? resolve(start);
}

function nearestWith(start: string, names: readonly string[]): string | undefined {
  for (let folder = resolve(start); ; folder = dirname(folder)) {
    if (names.some((name) => existsSync(join(folder, name)))) return folder;
    if (dirname(folder) === folder) return undefined;
  }
}

/** The folder of this library, which holds its package.json. */
export function libraryFolder(): string {
  for (let folder = __dirname; ; folder = dirname(folder)) {
    const description = join(folder, "package.json");
    if (existsSync(description) && nameOf(description) === "kernel-lib") return folder;
    if (dirname(folder) === folder) throw new Error("kernel-lib's own folder was not found");
  }
}

function nameOf(description: string): unknown {
  return (JSON.parse(readFileSync(description, "utf8")) as { name?: unknown }).name;
}

function versionOf(description: string): string {
  return String((JSON.parse(readFileSync(description, "utf8")) as { version?: unknown }).version);
}

async function listFiles(places: readonly string[]): Promise<string[]> {
  const found: string[] = [];
  for (const place of places) {
    if (!existsSync(place)) continue;
    const entries = await readdir(place, { withFileTypes: true }).catch(() => undefined);
    if (!entries) found.push(place);
    else
      found.push(
        ...(await listFiles(
          entries
            .filter((entry) => !entry.name.startsWith("."))
            .map((entry) => join(place, entry.name)),
        )),
      );
  }
  return found.sort();
}

async function hashFile(file: string): Promise<string> {
  return createHash("sha256")
    .update(await readFile(file))
    .digest("hex");
}

async function hashEach(base: string, files: readonly string[]): Promise<Record<string, string>> {
  const hashes: Record<string, string> = {};
  for (const file of files) hashes[portablePath(base, file)] = await hashFile(file);
  return hashes;
}

async function hashTogether(base: string, files: readonly string[]): Promise<string> {
  const hash = createHash("sha256");
  for (const file of files) hash.update(`${portablePath(base, file)}\n${await hashFile(file)}\n`);
  return hash.digest("hex");
}

function portablePath(base: string, file: string): string {
  return relative(base, file).split(sep).join("/");
}
