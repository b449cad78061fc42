import { mkdir, rename, rm, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import type { DataPackage } from "../reading/data-package";
import { removeLeftovers, restoreInterrupted, writingFolders } from "../interrupted-write";
import { STUDY_COLUMNS, type Study } from "../schema/study";
import { TEST_COLUMNS } from "../schema/test-columns";
import { csvText } from "../table/csv-text";
import type { TestTable } from "../table/test-table";

/**
 * `tests.csv` of a table: the schema's columns in order (those that are filled, and the required
 * ones), then the extra ones.
 */
export function testsCsv(tests: TestTable): string {
  const rows = tests.rows();
  const columns = TEST_COLUMNS.filter(
    ({ name, required }) =>
      required || rows.some((row) => (row as unknown as Record<string, unknown>)[name] !== null),
  ).map(({ name }) => name);
  const extras = tests.extraColumns.map(({ name }) => name);
  return csvText(
    [...columns, ...extras],
    rows.map((row) => [
      ...columns.map(
        (name) => (row as unknown as Record<string, string | number | null>)[name] ?? null,
      ),
      ...extras.map((name) => row.extra[name] ?? null),
    ]),
  );
}

/** `studies.csv`. */
export function studiesCsv(studies: ReadonlyArray<Study>): string {
  const names = STUDY_COLUMNS.map(({ name }) => name);
  return csvText(
    names,
    studies.map((study) =>
      names.map(
        (name) => (study as unknown as Record<string, string | number | null>)[name] ?? null,
      ),
    ),
  );
}

/** What a data set folder is made of. */
export interface DatasetContents {
  readonly tests: TestTable;
  readonly studies: ReadonlyArray<Study>;
  readonly card: string;
  readonly descriptor: DataPackage;
  /** Further files, by name. */
  readonly further?: Readonly<Record<string, string>>;
}

/**
 * Writes a data set folder as a whole: everything goes to a neighbouring folder first, which then
 * takes the old one's place. A process killed half-way leaves the old data set whole; killed in the
 * moment of exchange, the next reading or writing restores it.
 */
export async function writeDataset(folder: string, contents: DatasetContents): Promise<void> {
  const files: Record<string, string> = {
    "tests.csv": testsCsv(contents.tests),
    "studies.csv": studiesCsv(contents.studies),
    "README.md": contents.card,
    "datapackage.json": `${JSON.stringify(contents.descriptor, null, 2)}\n`,
    ...contents.further,
  };
  const { fresh, old } = writingFolders(folder);
  await restoreInterrupted(folder);
  await mkdir(fresh, { recursive: true });
  try {
    for (const [name, content] of Object.entries(files)) {
      await mkdir(dirname(join(fresh, name)), { recursive: true });
      await writeFile(join(fresh, name), content);
    }
    await rename(folder, old).catch((error: NodeJS.ErrnoException) => {
      if (error.code !== "ENOENT") throw error;
    });
    await rename(fresh, folder);
  } finally {
    await restoreInterrupted(folder);
    await rm(fresh, { recursive: true, force: true });
    await rm(old, { recursive: true, force: true });
  }
  await removeLeftovers(folder);
}
