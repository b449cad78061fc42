import { cpSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll } from "vitest";

// Inside the project, so that cells can import kernel-lib; the folder is ignored by git.
const PLACE = join(__dirname, "..", "..", ".cache");
mkdirSync(PLACE, { recursive: true });
const scratch = mkdtempSync(join(PLACE, "notebook-test-"));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));

export const FIXTURES = join(__dirname, "fixtures");

/** An empty folder that is removed when the test file is through. */
export function scratchFolder(): string {
  return mkdtempSync(join(scratch, "t-"));
}

/** Writes a notebook of code cells (texts) and full cells (objects); returns its path. */
export function notebookOf(cells: readonly (string | object)[], name = "trial.ipynb"): string {
  const file = join(scratchFolder(), name);
  const full = cells.map((cell, index) =>
    typeof cell === "string"
      ? {
          cell_type: "code",
          id: `cell-${index}`,
          metadata: {},
          source: cell,
          outputs: [],
          execution_count: null,
        }
      : {
          id: `cell-${index}`,
          metadata: {},
          outputs: [],
          execution_count: null,
          cell_type: "code",
          ...cell,
        },
  );
  writeFileSync(
    file,
    JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells: full }),
  );
  return file;
}

/** A copy of the fixture whose name ends so; returns its path. */
export function fixtureCopy(ending: string): string {
  const name = readdirSync(FIXTURES).find((entry) => entry.endsWith(`-${ending}.ipynb`));
  if (name === undefined) throw new Error(`no fixture ends in -${ending}`);
  const file = join(scratchFolder(), name);
  cpSync(join(FIXTURES, name), file);
  return file;
}
