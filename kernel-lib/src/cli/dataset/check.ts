import type { Command } from "commander";
import { countBySeverity, DatasetError, datasetSummary, diagnosticReport, readDatasets } from "../../dataset";

interface CheckOptions {
  readonly format: string;
  readonly allowWarnings: boolean;
}

/** `code-comparison check <folder>`: is the data set in order, and if not, where. */
export function registerCheckCommand(program: Command): void {
  program
    .command("check")
    .description("check data set folders: every fault with file, row, column, value and what was expected")
    .argument("<folder...>", "data set folders, each with tests.csv")
    .option("--format <format>", "text or json", "text")
    .option("--allow-warnings", "exit with 0 when there are warnings but no errors", false)
    .addHelpText("after", "\nExample:\n  code-comparison check datasets/own\n\nExit code: 0 in order, 1 something was found, 2 wrong use.")
    .action(async (folders: string[], options: CheckOptions) => {
      process.exitCode = await check(folders, options);
    });
}

async function check(folders: ReadonlyArray<string>, { format, allowWarnings }: CheckOptions): Promise<number> {
  if (format !== "text" && format !== "json") {
    console.error(`--format "${format}" is not known, expected text or json`);
    return 2;
  }
  try {
    const dataset = await readDatasets(folders);
    const { diagnostics, setAside, hashes, tests } = dataset;
    if (format === "json") {
      console.log(JSON.stringify({ rows: tests.length, excluded: tests.excluded().length, setAside, diagnostics, hashes }, null, 2));
    } else {
      console.log(datasetSummary(dataset));
      if (diagnostics.length > 0) console.log(`\n${diagnosticReport(diagnostics)}`);
    }
    const counts = countBySeverity(diagnostics);
    return counts.error > 0 || (counts.warning > 0 && !allowWarnings) ? 1 : 0;
  } catch (error) {
    if (!(error instanceof DatasetError)) throw error;
    if (format === "json") console.log(JSON.stringify({ rows: 0, excluded: 0, setAside: [], diagnostics: error.diagnostics, hashes: {} }, null, 2));
    else console.error(error.message);
    return 2;
  }
}
