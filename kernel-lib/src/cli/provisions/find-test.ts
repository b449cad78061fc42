import { didYouMean, readDatasets, type TestTable } from "../../dataset";
import { count } from "../../face/results/names";
import { dataFolders, rowsWhere } from "../use/chosen-rows";
import { InvalidInput } from "../use/invalid-input";

/** A test, and where it stands in its table. */
export interface FoundTest {
  readonly tests: TestTable;
  readonly row: number;
  readonly id: string;
}

/** Where one test is looked for: options that several commands take. */
export interface TestOptions {
  readonly data?: readonly string[];
  readonly where?: string;
}

/**
 * One test by its name, in the folders given or in those of the project; or the only one that meets
 * the condition of `--where`.
 * @throws InvalidInput when no usable row has that name, or not exactly one meets the condition
 */
export async function findTest(
  id: string | undefined,
  { data, where }: TestOptions,
): Promise<FoundTest> {
  if (id === undefined && where === undefined)
    throw new InvalidInput(
      "No test was named. Enter a test_id, or --where with a condition that one test meets.",
    );
  const read = await readDatasets(dataFolders(data));
  const repeated = read.diagnostics.find(
    ({ rule, value }) => rule === "duplicate-id" && id !== undefined && value === id,
  );
  if (repeated !== undefined)
    throw new InvalidInput(`${repeated.message}. State which data set is meant: --data <folder>.`);
  const tests = rowsWhere(read, where).chosen.table;
  const ids = tests.texts("test_id").map((one) => one ?? "");
  const rows = `${count(tests.length, where === undefined ? "usable row" : "row")}${where === undefined ? "" : ` where ${where}`}`;
  if (id === undefined) {
    if (ids.length === 1) return { tests, row: 0, id: ids[0]! };
    throw new InvalidInput(
      `The condition of --where chose ${rows}. Enter a condition that one test meets, or a test_id${ids.length === 0 ? "" : ` such as ${ids.slice(0, 3).join(", ")}`}.`,
    );
  }
  const row = ids.indexOf(id);
  if (row < 0)
    throw new InvalidInput(
      `Test "${id}" was not found in ${rows}${didYouMean(id, ids)}.${ids.length === 0 ? "" : ` Enter a test_id such as ${ids.slice(0, 3).join(", ")}.`}`,
    );
  return { tests, row, id };
}

/**
 * Refuses a test with tension and shear where the answer concerns capacities of one action. @throws
 * InvalidInput
 */
export function requireOneLoad({ tests, row, id }: FoundTest): void {
  if (tests.text(row, "action") === "tension_and_shear")
    throw new InvalidInput(
      `Test "${id}" combines tension and shear. Enter a test with one load; explain and predict give the resultant capacity.`,
    );
}
