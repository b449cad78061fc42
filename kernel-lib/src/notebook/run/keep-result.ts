import { rm } from "node:fs/promises";
import { basename, dirname, join } from "node:path";
import { writeNotebook } from "../format";
import type { Notebook } from "../format";

/** Where a failed run keeps what ran, so that the notebook itself stays as it was. */
export function partialFile(file: string): string {
  return file.replace(/(\.ipynb)?$/, ".partial.ipynb");
}

/** Writes the result of a run: the notebook, or the partial notebook. Returns the file written. */
export async function keepResult(
  file: string,
  notebook: Notebook,
  status: "done" | "failed",
  out?: string,
): Promise<string> {
  const target = join(out ?? dirname(file), basename(file));
  if (status === "failed") {
    await writeNotebook(partialFile(target), notebook);
    return partialFile(target);
  }
  await writeNotebook(target, notebook);
  // A partial notebook of an earlier, failed run would now mislead.
  await rm(partialFile(target), { force: true });
  return target;
}
