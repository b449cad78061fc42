import { TEST_COLUMNS, TestTable, whatIfRows, type TestRowInput } from "../../dataset";
import { UnknownNameError } from "../results/names";
import { derivedAnew } from "./derived-columns";
import type { TestRow } from "./study-row";
import { Tests } from "./tests";

/**
 * One specimen that nobody made, for `predict`, `explain`, `governing`, `sensitivity` and
 * `embedmentFor`; it has no load and no observed mode. A column that is not stated is blank, and a
 * capacity that needs it is withheld with the reason.
 * @param options `keep: "none"` where shown tables and figures shall not be written to `exports/`
 * @throws UnknownNameError for a column that tests do not have; RangeError where one that every
 *   test states is missing, or a value does not fit its column
 * @example
 * specimen({ bar_material: "gfrp", bar_diameter_mm: 16, bar_strength_MPa: 900, embedment_mm: 160, installation: "post_installed",
 *   concrete_strength_MPa: 30, concrete_strength_basis: "cylinder", setup: "unconfined_tension", action: "tension" })
 */
export function specimen(
  values: Partial<TestRow>,
  options: { readonly keep?: "shown" | "none" } = {},
): Tests {
  const { test_id = "specimen", ...stated } = values;
  const names = TEST_COLUMNS.map(({ name }) => name);
  const own: Record<string, string | number | null> = {};
  for (const [column, value] of Object.entries(stated))
    if (column.startsWith("extra.")) own[column.slice(6)] = value as string | number | null;
    else if (!names.includes(column)) throw new UnknownNameError("column", column, names);
  const given = Object.fromEntries(
    Object.entries(stated).filter(
      ([column, value]) => names.includes(column) && value !== undefined,
    ),
  );
  const missing = TEST_COLUMNS.filter(
    ({ name, required }) =>
      required && !(name in given) && !["test_id", "study_id", "series_id"].includes(name),
  )
    .map(({ name }) => name)
    .filter((name) => name !== "peak_load_kN" && name !== "failure_mode");
  if (missing.length > 0)
    throw new RangeError(
      `The specimen does not state ${missing.join(", ")}; expected a value of each.`,
    );
  const {
    study_id = "specimen",
    series_id = "specimen",
    ...changes
  } = given as Record<string, never>;
  const blank = { test_id, study_id, series_id, extra: own } as unknown as TestRowInput;
  const [row] = whatIfRows(TestTable.fromRows([blank]), changes).rows();
  const table = TestTable.fromRows([{ ...row!, test_id }]);
  return new Tests(
    { keeps: options.keep !== "none", invented: false, seed: 1 },
    {
      table: derivedAnew(table),
      conditions: [],
      rejected: [],
      whatIf: { columns: [], blanked: [] },
    },
  );
}
