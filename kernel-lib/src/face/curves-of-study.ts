import { join } from "node:path";
import { reduceCurvesOf, type ReductionOptions } from "../curves";
import { readDataset, type Dataset, type Diagnostic, type TestTable } from "../dataset";
import type { CurveOfTest } from "./curve-lines";
import { testRecords } from "./tests/test-records";

/**
 * The records that the chosen tests point to, folder by folder; links are read from the folder that
 * names them.
 */
export async function curvesOfStudy(
  data: Dataset,
  folders: readonly string[],
  chosen: TestTable,
  options: ReductionOptions,
): Promise<{ readonly curves: readonly CurveOfTest[]; readonly findings: readonly Diagnostic[] }> {
  const rows = new Map(testRecords(chosen).map((row) => [row.test_id, row]));
  const curves: CurveOfTest[] = [];
  const findings: Diagnostic[] = [];
  for (const folder of folders) {
    const one = folders.length === 1 ? data : await readDataset(folder);
    const tests = one.tests.where(({ test_id }) => rows.has(test_id));
    const reduced = await reduceCurvesOf({ ...one, tests }, options);
    for (const found of reduced.curves)
      curves.push({ ...found, path: join(folder, found.file), row: rows.get(found.test_id)! });
    // Remarks on a record stand with its reduction.
    findings.push(...reduced.diagnostics.filter(({ rule }) => rule !== "curve-flag"));
  }
  return { curves, findings };
}
