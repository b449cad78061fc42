import { execFileSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";

export const project = fileURLToPath(new URL("../..", import.meta.url));
export const source = join(project, "kernel-lib", "src");

/** Paths of all tracked files, relative to the project; null outside a git checkout. */
export function trackedFiles(): string[] | null {
  try {
    const listed = execFileSync("git", ["ls-files", "-z"], {
      cwd: project,
      encoding: "utf8",
      stdio: ["ignore", "pipe", "ignore"],
      maxBuffer: 1 << 26,
    });
    const files = listed
      .split("\0")
      .filter((file) => file !== "" && existsSync(join(project, file)));
    return files.length > 0 ? files : null;
  } catch {
    return null;
  }
}

/** Paths of the files below a folder whose names end so, relative to the project. */
export function filesBelow(folder: string, ending: RegExp): string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && ending.test(entry.name))
    .map((entry) => relative(project, join(entry.parentPath, entry.name)).replaceAll("\\", "/"))
    .filter((file) => !file.includes("node_modules/"))
    .sort();
}

export function textOf(file: string): string {
  return readFileSync(join(project, file), "utf8");
}
