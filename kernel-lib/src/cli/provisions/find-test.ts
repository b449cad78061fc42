import { readDatasets, type TestTable } from "../../dataset";
import { dataFolders } from "../use/option-declarations";
import { WrongUse } from "../use/wrong-use";

/** One test by its name, in the folders given or in those of the project. @throws WrongUse when no usable row has that name */
export async function findTest(id: string, folders: readonly string[] | undefined): Promise<{ readonly tests: TestTable; readonly row: number }> {
  const { tests } = await readDatasets(dataFolders(folders));
  const row = tests.texts("test_id").indexOf(id);
  if (row < 0) throw new WrongUse(`test "${id}" is not among the ${String(tests.length)} usable rows, expected a test_id such as ${tests.texts("test_id").slice(0, 3).join(", ")}`);
  return { tests, row };
}
