import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { compareEnvironments } from "../review";
import { projectFolder, recordEnvironment } from "../run";
import type { ReviewRecord } from "./review-record";

/**
 * Whether a signed record still speaks of the notebooks, data and library that are here now:
 * one line for each thing that does not fit, empty when all do. A record is found out when the
 * notebooks change, not when the record itself is rewritten: it carries a name, not a seal.
 */
export async function checkReviewRecord(
  record: ReviewRecord,
  files: readonly string[],
  inputs: readonly string[],
): Promise<string[]> {
  const problems: string[] = [];
  const left = new Map(record.notebooks.map((notebook) => [notebook.name, notebook]));
  for (const file of files) {
    const notebook = left.get(basename(file));
    left.delete(basename(file));
    const hash = createHash("sha256")
      .update(await readFile(file))
      .digest("hex");
    if (!notebook) problems.push(`${file} is not in the record`);
    else if (notebook.sha256 !== hash) problems.push(`${file} has changed since it was signed`);
    else if (notebook.cells.length < notebook.code_cells)
      problems.push(
        `${file}: only ${notebook.cells.length} of ${notebook.code_cells} cells were reviewed`,
      );
    else if (!notebook.reproduced) problems.push(`${file} was not reproduced`);
  }
  for (const name of left.keys())
    problems.push(`${name} is in the record but not among the notebooks given`);
  const now = await recordEnvironment(projectFolder(process.cwd()), inputs);
  return [
    ...problems,
    ...compareEnvironments(record.environment, now).map((reason) => `since the signing: ${reason}`),
  ];
}
