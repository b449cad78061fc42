import { didYouMean, readDatasets, type TestTable } from "../../dataset";
import { dataFolders } from "../use/option-declarations";
import { WrongUse } from "../use/wrong-use";

/**
 * One test by its name, in the folders given or in those of the project. @throws WrongUse when no
 * usable row has that name
 */
export async function findTest(
  id: string,
  folders: readonly string[] | undefined,
): Promise<{ readonly tests: TestTable; readonly row: number }> {
  const { tests } = await readDatasets(dataFolders(folders));
  const ids = tests.texts("test_id");
  const row = ids.indexOf(id);
  if (row < 0)
    throw new WrongUse(
      `test "${id}" is not among the ${String(tests.length)} usable rows${didYouMean(
        id,
        ids.filter((one) => one !== null),
      )}, expected a test_id such as ${ids.slice(0, 3).join(", ")}`,
    );
  return { tests, row };
}

/**
 * Refuses a test with tension and shear where the answer concerns capacities of one action. @throws
 * WrongUse
 */
export function requireOneLoad(tests: TestTable, row: number, id: string): void {
  if (tests.text(row, "action") === "tension_and_shear")
    throw new WrongUse(
      `test "${id}" has tension and shear at once, expected a test with one load; explain and predict give its resultant capacity`,
    );
}
