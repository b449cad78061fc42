import { DatasetError, type Dataset, TestTable, type Study } from "../../dataset";

const NUMBERS = ["embedment_to_diameter", "bond_stress_MPa"] as const;
const TEXTS = ["bar_class", "provenance"] as const;

/**
 * The names of the derived columns that a table of a study holds beside the contract's; `layout` is
 * derived where it is asked for.
 */
export const DERIVED_COLUMNS: readonly string[] = [...NUMBERS, ...TEXTS];

/**
 * Tests with the derived columns: `bar_class` (steel or frp), `embedment_to_diameter`,
 * `bond_stress_MPa`, `provenance`. Bond stress P / (pi d l n), n bars, MPa; for tests in tension
 * only.
 * @throws DatasetError where the data have a column of their own by such a name
 */
export function withDerivedColumns({
  tests,
  studies,
}: Pick<Dataset, "tests" | "studies">): TestTable {
  const clash = tests.extraColumns.find(({ name }) => DERIVED_COLUMNS.includes(name));
  if (clash)
    throw new DatasetError(
      `The column "${clash.name}" is derived from the others; expected another name for a column of your own, such as my_${clash.name}.`,
    );
  const known = new Map<string, Study>(studies.map((study) => [study.study_id, study]));
  return withDerived(
    tests,
    tests.texts("study_id").map((id) => known.get(id ?? "")?.provenance ?? "own"),
  );
}

/** The same tests with other values, their derived columns computed anew. */
export function derivedAnew(tests: TestTable): TestTable {
  const known = tests.has("provenance") ? tests.texts("provenance") : null;
  const plain = tests.rows().map((row) => ({
    ...row,
    extra: Object.fromEntries(
      Object.entries(row.extra).filter(([name]) => !DERIVED_COLUMNS.includes(name)),
    ),
  }));
  const sources = plain.map((_, i) => tests.source(i));
  return withDerived(
    TestTable.fromRows(plain, sources),
    plain.map((_, i) => known?.[i] ?? "own"),
  );
}

function withDerived(tests: TestTable, provenance: ReadonlyArray<string | null>): TestTable {
  const n = tests.length;
  const [load, diameter, length] = ["peak_load_kN", "bar_diameter_mm", "embedment_mm"].map((name) =>
    tests.numbers(name),
  ) as [Float64Array, Float64Array, Float64Array];
  const bars = ["group_nx", "group_ny"].map((name) => tests.numbers(name)) as [
    Float64Array,
    Float64Array,
  ];
  const actions = tests.texts("action");
  const count = (i: number): number => (bars[0][i] || 1) * (bars[1][i] || 1);
  const numbers: Record<(typeof NUMBERS)[number], Float64Array> = {
    embedment_to_diameter: Float64Array.from({ length: n }, (_, i) => length[i]! / diameter[i]!),
    bond_stress_MPa: Float64Array.from({ length: n }, (_, i) =>
      actions[i] === "tension"
        ? (load[i]! * 1000) / (Math.PI * diameter[i]! * length[i]! * count(i))
        : NaN,
    ),
  };
  const texts: Record<(typeof TEXTS)[number], ReadonlyArray<string | null>> = {
    bar_class: tests
      .texts("bar_material")
      .map((material) => (material === "steel" ? "steel" : "frp")),
    provenance,
  };
  return tests.withColumns({ numbers, texts });
}
