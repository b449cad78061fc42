import { readdir, readFile, stat } from "node:fs/promises";
import { join, posix } from "node:path";
import { diagnostic, shortened, type Diagnostic } from "../dataset/diagnostics";
import type { Dataset } from "../dataset/dataset";
import { sha256 } from "../dataset/reading/file-bytes";
import { CURVE_VALUES_FILE, parseCurveValues } from "../dataset/reading/curve-values";
import { isInside } from "./curves-of-tests";

/**
 * Whether every link in the column `curve` leads to a file of its data set, and every file in a
 * folder `curves` belongs to a test. Of several data sets joined, each row's link is looked for in
 * the folder the row came from.
 */
export async function curveLinkFindings(dataset: Dataset): Promise<Diagnostic[]> {
  const { tests, folders } = dataset;
  const links =
    tests.has("curve") &&
    tests.extraColumns.some(({ name, kind }) => name === "curve" && kind === "text")
      ? tests.texts("curve")
      : [];
  const linked = new Map<string, Set<string>>(folders.map((folder) => [folder, new Set<string>()]));
  const found: Diagnostic[] = [];
  for (let i = 0; i < links.length; i += 1) {
    const link = links[i] ?? null;
    if (link === null) continue;
    const source = tests.source(i);
    const folder =
      folders.length === 1
        ? folders[0]
        : folders.find((one) =>
            (source?.file ?? "").startsWith(
              `${
                one
                  .split(/[/\\]/)
                  .filter((part) => part !== "")
                  .pop() ?? ""
              }/`,
            ),
          );
    if (folder === undefined) continue;
    const say = (rule: string, what: string): void =>
      void found.push(
        diagnostic(
          "warning",
          rule,
          `${source?.file ?? ""} row ${String(source?.row ?? "")}: the link "${shortened(link)}" ${what}, expected a record within the data set`,
          {
            file: source?.file ?? dataset.name,
            row: source?.row ?? null,
            column: "curve",
            value: link,
            expected: "a record within the data set",
          },
        ),
      );
    if (!isInside(link)) {
      say("curve-outside", "leads out of the data set");
      continue;
    }
    linked.get(folder)?.add(posix.normalize(link.replaceAll("\\", "/")));
    if (!(await stat(join(folder, link)).catch(() => null))?.isFile())
      say("no-curve", "leads to no file");
  }
  for (const folder of folders) {
    found.push(...(await changedRecords(folder)));
    for (const file of await readdir(join(folder, "curves")).catch(() => [] as string[])) {
      if (!/\.(csv|tsv|txt)$/i.test(file) || linked.get(folder)?.has(`curves/${file}`) === true)
        continue;
      found.push(
        diagnostic(
          "information",
          "unlinked-curve",
          `${folder}: the record curves/${file} belongs to no test, expected its name in the column curve of one`,
          { file: `curves/${file}`, expected: "a row whose column curve names it" },
        ),
      );
    }
  }
  return found;
}

/** Records that are no longer the ones from which the reduced values beside them were taken. */
async function changedRecords(folder: string): Promise<Diagnostic[]> {
  const bytes = await readFile(join(folder, CURVE_VALUES_FILE)).catch(() => null);
  if (bytes === null) return [];
  const found: Diagnostic[] = [];
  for (const [link, recorded] of parseCurveValues(bytes, CURVE_VALUES_FILE).hashes) {
    if (!isInside(link)) continue;
    const record = await readFile(join(folder, link)).catch(() => null);
    if (record !== null && sha256(record) !== recorded)
      found.push(
        diagnostic(
          "warning",
          "changed-record",
          `${folder}: ${shortened(link)} has changed since ${CURVE_VALUES_FILE} was written, expected the command curves to be run again`,
          { file: link, expected: recorded },
        ),
      );
  }
  return found;
}
