import { readFileSync } from "node:fs";
import { join } from "node:path";
import { parse } from "csv-parse/sync";
import { project } from "../house/project-files";

/** A row of a table of tests by column, every cell as text. */
export type CsvRow = Readonly<Record<string, string | undefined>>;

/** The rows of the demonstration. */
export function demoCsv(): readonly CsvRow[] {
  return parse(readFileSync(join(project, "datasets/demo/tests.csv"), "utf8"), { columns: true });
}
