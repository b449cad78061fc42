import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import { codeCells, readNotebook } from "../format";
import { compareEnvironments } from "../review";
import { projectFolder, recordEnvironment } from "../run";
import { contradictionsIn } from "./contradictions";
import type { ReviewRecord } from "./review-record";

/**
 * Whether a signed record still speaks of the notebooks, data and library that are here now:
 * one line for each thing that does not fit, empty when all do. A record that was rewritten is found
 * out where it contradicts itself or the notebooks; only a signature (`checkSignature`) seals it.
 */
export async function checkReviewRecord(
  record: ReviewRecord,
  files: readonly string[],
  inputs: readonly string[],
): Promise<string[]> {
  const problems = contradictionsIn(record);
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
    else if (!notebook.reproduced && !record.reproduced)
      problems.push(`${file} was not reproduced`);
    if (notebook?.sha256 === hash) problems.push(...(await countProblems(file, notebook)));
  }
  for (const name of left.keys())
    problems.push(`${name} is in the record but not among the notebooks given`);
  const now = await recordEnvironment(projectFolder(process.cwd()), inputs);
  return [
    ...problems,
    ...compareEnvironments(record.environment, now).map((reason) => `since the signing: ${reason}`),
  ];
}

/** Cells that the record leaves out or adds. */
async function countProblems(
  file: string,
  { code_cells: count }: ReviewRecord["notebooks"][number],
): Promise<string[]> {
  const cells = codeCells(await readNotebook(file)).length;
  return cells === count ? [] : [`${file} has ${cells} code cells, the record says ${count}`];
}
