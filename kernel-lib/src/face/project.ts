import { existsSync, readdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";

/**
 * The project's folder: the nearest one upward that holds `datasets` and `package.json`. @throws
 * Error when there is none
 */
export function projectRoot(from: string = process.cwd()): string {
  for (let folder = resolve(from); ; folder = dirname(folder)) {
    if (existsSync(join(folder, "datasets")) && existsSync(join(folder, "package.json")))
      return folder;
    if (dirname(folder) === folder)
      throw new Error(
        `No project found at or above ${from}; expected a folder with datasets/ and package.json.`,
      );
  }
}

/**
 * The dataset folders of a project that hold tests: published, demo, own, and every imported one.
 */
export function datasetFolders(root: string): string[] {
  const at = (...parts: string[]): string => join(root, "datasets", ...parts);
  const imported = existsSync(at("imported"))
    ? readdirSync(at("imported"))
        .sort()
        .map((name) => at("imported", name))
    : [];
  const own = existsSync(at("own"))
    ? readdirSync(at("own"))
        .sort()
        .map((name) => at("own", name))
    : [];
  return [at("published"), at("demo"), at("own"), ...own, ...imported].filter((folder) =>
    existsSync(join(folder, "tests.csv")),
  );
}
