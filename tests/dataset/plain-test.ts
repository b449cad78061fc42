import type { TestRowInput } from "../../kernel-lib/src/dataset";

/** An invented pull-out test with no more than the columns that are required. */
export const PLAIN_TEST: Omit<TestRowInput, "test_id"> = {
  study_id: "s",
  series_id: "a",
  bar_material: "gfrp",
  bar_diameter_mm: 16,
  installation: "post_installed",
  concrete_strength_MPa: 30,
  concrete_strength_basis: "cylinder",
  embedment_mm: 128,
  setup: "confined_tension",
  action: "tension",
  peak_load_kN: 50,
  failure_mode: "bond",
};
