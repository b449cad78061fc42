import { diagnostic, type Diagnostic } from "../checks/diagnostics";
import type { TestRow } from "../schema/test-row";
import type { TestTable } from "../table/test-table";

/** Tests of different studies that agree in everything that was measured. */
export interface LikelyDuplicate {
  readonly test_ids: ReadonlyArray<string>;
  readonly study_ids: ReadonlyArray<string>;
}

/** What two records of one specimen would share: bar, concrete, embedment, set-up, and the load to 4 digits. */
function fingerprint(row: TestRow): string {
  return JSON.stringify([row.bar_material, row.bar_diameter_mm, row.concrete_strength_MPa, row.embedment_mm, row.setup, row.replicates ?? 1, row.peak_load_kN.toPrecision(4)]);
}

/** Tests that different studies seem to report of one and the same specimen. Within a study, equal tests are replicates and no duplicates. */
export function likelyDuplicates(tests: TestTable): LikelyDuplicate[] {
  const groups = new Map<string, TestRow[]>();
  for (const row of tests.rows()) {
    const key = fingerprint(row);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return [...groups.values()]
    .filter((group) => new Set(group.map(({ study_id }) => study_id)).size > 1)
    .map((group) => ({ test_ids: group.map(({ test_id }) => test_id), study_ids: [...new Set(group.map(({ study_id }) => study_id))] }));
}

/** The same as warnings. */
export function duplicateFindings(tests: TestTable, file: string): Diagnostic[] {
  return likelyDuplicates(tests).map(({ test_ids, study_ids }) =>
    diagnostic("warning", "likely-duplicate", `${test_ids.join(", ")} of the studies ${study_ids.join(", ")} agree in bar, concrete, embedment, set-up and load: expected each specimen in one study`, { file, column: "test_id", value: test_ids.join(" "), expected: "each specimen in one study" }));
}
