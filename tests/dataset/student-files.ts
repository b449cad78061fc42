import { parseTests, type TestsReading } from "../../kernel-lib/src/dataset";

/** Header of the invented files that students bring, and a row that is in order. */
export const HEADER =
  "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode".split(
    ",",
  );
export const good = (id: string, load = "50", strength = "30"): string[] => [
  id,
  "s",
  "a",
  "gfrp",
  "16",
  "post_installed",
  strength,
  "cylinder",
  "128",
  "confined_tension",
  "tension",
  load,
  "bond",
];
export const text = (rows: ReadonlyArray<ReadonlyArray<string>>, separator = ","): string =>
  rows.map((cells) => cells.join(separator)).join("\n");
export const read = (content: string | Uint8Array, file = "t.csv"): TestsReading =>
  parseTests(typeof content === "string" ? new TextEncoder().encode(content) : content, file);
export const messages = (
  { diagnostics }: Pick<TestsReading, "diagnostics">,
  rule: string,
): string[] => diagnostics.filter((one) => one.rule === rule).map(({ message }) => message);
export const loads = ({ tests }: TestsReading): number[] => [...tests.numbers("peak_load_kN")];
