import { tmpdir } from "node:os";
import { join } from "node:path";
import { NotebookProblem, writeWhole } from "../../notebook";

/**
 * Writes a report. Where its folder cannot be written, it is kept in the system's folder for
 * temporary files, as the work of a whole review stands in it.
 *
 * @throws NotebookProblem that names both files and what to do
 */
export async function writeReport(file: string, html: string): Promise<void> {
  try {
    await writeWhole(file, html);
  } catch (error) {
    const kept = join(tmpdir(), `code-comparison-report-${process.pid}.html`);
    const place = await writeWhole(kept, html).then(
      () => `The report is kept in ${kept}.`,
      (other: Error) => `It could not be kept elsewhere either (${other.message}).`,
    );
    throw new NotebookProblem(
      `${file} cannot be written (${(error as Error).message}). ${place} Free space, or name a folder you may write to with --out.`,
      { cause: error },
    );
  }
}
