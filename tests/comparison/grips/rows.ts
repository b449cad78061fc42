import { TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";

/** A 100 mm2 bar of 1000 MPa: a load of 1 kN is one hundredth of its strength. */
export const bar: TestRowInput = {
  test_id: "1",
  study_id: "s",
  series_id: "a",
  bar_material: "gfrp",
  bar_size: "10",
  bar_diameter_mm: 11.28,
  bar_area_mm2: 100,
  bar_strength_MPa: 1000,
  installation: "post_installed",
  concrete_strength_MPa: 30,
  concrete_strength_basis: "cylinder",
  embedment_mm: 100,
  setup: "unconfined_tension",
  action: "tension",
  grip: "wedges_on_bar",
  peak_load_kN: 70,
  failure_mode: "rupture_at_grip",
};

/** A table of such bars, each with its own changes. */
export function bars(changes: readonly Partial<TestRowInput>[]): TestTable {
  return TestTable.fromRows(
    changes.map((change, i) => ({ ...bar, test_id: String(i + 1), ...change })),
  );
}
