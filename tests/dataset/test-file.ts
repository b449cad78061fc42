import { expect } from "vitest";
import { parseTests, type TestsReading } from "../../kernel-lib/src/dataset";

/** Header of a test file, and a row that is in order. */
export const HEADER =
  "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode";
export const good = (id: string, load = "50"): string =>
  `${id},s,a,gfrp,16,post_installed,30,cylinder,128,confined_tension,tension,${load},bond`;
export const read = (text: string | Uint8Array): TestsReading =>
  parseTests(typeof text === "string" ? new TextEncoder().encode(text) : text, "t.csv");
export const ids = (reading: TestsReading): Array<string | null> => [
  ...reading.tests.texts("test_id"),
];

/** The reading's findings of one rule; fails when there are none. */
export function findings(reading: TestsReading, rule: string) {
  const found = reading.diagnostics.filter((finding) => finding.rule === rule);
  expect(
    found.length,
    `findings of ${rule} among ${reading.diagnostics.map((d) => d.rule).join(", ")}`,
  ).toBeGreaterThan(0);
  return found;
}
