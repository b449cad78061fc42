import { resolve } from "node:path";
import { Option } from "commander";
import { rejectedOnReading } from "../../comparison";
import { diagnosticReport, inventedAmong, readDatasets, type Dataset } from "../../dataset";
import { datasetFolders, isStudy, projectRoot } from "../../face/project";
import { withDerivedColumns } from "../../face/tests/derived-columns";
import { Tests } from "../../face/tests/tests";
import { absent } from "./help";
import { asNamed, InvalidInput, invalidOption, names } from "./invalid-input";
import { tell } from "./printing";

/** `--data`: where the tests come from. */
export const dataOption = (): Option =>
  absent(new Option("--data <folder...>", "data set folders, or studies"), "all of the study");

/**
 * The folders of `--data`, or those of the study around. The folder of a study stands for its data
 * folders.
 * @throws InvalidInput outside a study
 */
export function dataFolders(given: readonly string[] | undefined): readonly string[] {
  return (
    given?.flatMap((place) => (isStudy(place) ? datasetFolders(resolve(place)) : [place])) ??
    asNamed(() => datasetFolders(projectRoot()))
  );
}

/** `--where`: the rows that are looked at. */
export const whereOption = (): Option =>
  absent(
    new Option(
      "--where <condition>",
      "only rows that meet the condition, such as \"embedment_mm >= 100 && bar_material == 'gfrp'\"; columns of tests.csv, extra.<name> for your own, blank for an empty cell",
    ),
    "all rows",
  );

/**
 * The rows of data that meet the condition of `--where`, with the derived columns of a study.
 * @throws InvalidInput for a condition that cannot be read, or a column or word that there is not,
 *   naming the nearest
 */
export function rowsWhere(
  data: Pick<Dataset, "tests" | "studies" | "rejected">,
  where: string | undefined,
): Tests {
  const all = new Tests(
    { keeps: false, invented: inventedAmong(data.studies), seed: 1 },
    {
      table: withDerivedColumns(data),
      conditions: [],
      rejected: rejectedOnReading(data.rejected),
    },
  );
  if (where === undefined) return all;
  try {
    return all.where(where);
  } catch (error) {
    throw new InvalidInput(`Invalid --where: ${(error as Error).message}`);
  }
}

/** Data read for a command, and the rows chosen. */
export interface RowsRead {
  readonly data: Dataset;
  readonly tests: Tests;
}

/** Reads data sets, reports errors beside the answer, and chooses rows. @throws InvalidInput */
export async function readRows(
  folders: readonly string[],
  where: string | undefined,
): Promise<RowsRead> {
  const data = await readDatasets(dataFolders(folders));
  const errors = data.diagnostics.filter(({ severity }) => severity === "error");
  if (errors.length > 0) tell(diagnosticReport(errors));
  const tests = rowsWhere(data, where);
  if (where !== undefined)
    tell(
      `--where "${where}": ${String(tests.chosen.table.length)} of ${String(data.tests.length)} usable rows.`,
    );
  return { data, tests };
}

/** `--by`: columns to group by. */
export const byOption = (): Option =>
  new Option(
    "--by <columns>",
    "columns to group by, separated by commas; mode is the mode of the provision judged, failure_mode the mode observed; without mode a test counts once",
  ).default("mode,bar_material");

/** Grouping columns that no table states. */
const OF_A_PAIR = ["mode", "failure_mode", "provision", "layout"] as const;

/** The columns of `--by`, each of which the tests must have. @throws InvalidInput */
export function groupingColumns(by: string, tests: Tests, option: string = "by"): string[] {
  const columns = names(option, by, "columns");
  const known = [...OF_A_PAIR, ...tests.columnNames];
  for (const column of columns) {
    if (known.includes(column) || tests.chosen.table.has(column)) continue;
    throw invalidOption(
      option,
      column,
      "mode, failure_mode, provision, layout or a column of the tests such as bar_material or bar_size",
      known,
    );
  }
  return columns;
}
