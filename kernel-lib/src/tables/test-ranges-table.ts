import { valueWords } from "../comparison";
import type { TestTable } from "../dataset";
import { significant } from "../statistics/reading";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * Range of the tests that are not excluded, by study and bar material: sizes, embedments, strengths,
 * and the specimen on which the concrete strength was measured.
 */
export function testRangesTable(tests: TestTable, text: TableText): Table {
  const kept = tests.kept();
  const [studies, materials] = [kept.texts("study_id"), kept.texts("bar_material")];
  const [bases, diameters] = [
    kept.texts("concrete_strength_basis"),
    kept.numbers("bar_diameter_mm"),
  ];
  const embedments = kept.numbers("embedment_mm").map((value, i) => value / diameters[i]!);
  const [concrete, bar] = [kept.numbers("concrete_strength_MPa"), kept.numbers("bar_strength_MPa")];
  const groups = new Map<string, number[]>();
  for (let row = 0; row < kept.length; row += 1) {
    const key = JSON.stringify([studies[row] ?? null, materials[row] ?? null]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  return new Table({
    ...text,
    rowKey: ["study", "material"],
    columns: [
      { key: "study", title: "study", kind: "text" },
      { key: "material", title: "bar material", kind: "text" },
      { key: "n", title: "tests", kind: "integer" },
      { key: "diameter", title: "bar diameter", kind: "text", unit: "mm" },
      { key: "embedment", title: "embedment / diameter", kind: "text" },
      {
        key: "concrete",
        title: "concrete strength",
        kind: "text",
        unit: "MPa",
        note: "as stated by the source",
      },
      { key: "basis", title: "measured on", kind: "text" },
      {
        key: "bar",
        title: "bar strength",
        kind: "text",
        unit: "MPa",
        note: "measured, in tension",
      },
    ],
    rows: [...groups].map(([key, rows]) => {
      const [study, material] = JSON.parse(key) as [string | null, string | null];
      return {
        study,
        material: valueWords(material),
        n: rows.length,
        diameter: rangeOf(diameters, rows),
        embedment: rangeOf(embedments, rows),
        concrete: rangeOf(concrete, rows),
        basis: [...new Set(rows.map((row) => bases[row] ?? null))].map(basisWords).join(", "),
        bar: rangeOf(bar, rows),
      };
    }),
    notes: text.notes ?? [],
  });
}

/** "10.0 to 25.4", with the number of blanks where there are some. */
function rangeOf(values: ArrayLike<number>, rows: readonly number[]): string {
  const stated = rows.map((row) => values[row]!).filter(Number.isFinite);
  if (stated.length === 0) return "not stated";
  const [low, high] = [
    stated.reduce((a, b) => Math.min(a, b)),
    stated.reduce((a, b) => Math.max(a, b)),
  ];
  const range = low === high ? significant(low) : `${significant(low)} to ${significant(high)}`;
  const blank = rows.length - stated.length;
  return blank === 0 ? range : `${range}; ${String(blank)} not stated`;
}

function basisWords(basis: string | null): string {
  if (basis === null || basis === "unknown") return "not stated";
  return basis === "cylinder_assumed" ? "cylinder (assumed)" : valueWords(basis);
}
