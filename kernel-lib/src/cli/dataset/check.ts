import { readFile, stat } from "node:fs/promises";
import type { Command } from "commander";
import {
  changesReport, countBySeverity, datasetChanges, DatasetError, datasetSummary, diagnosticHtml, diagnosticReport, duplicateFindings, hashChanges, predictionFindings, readDatasets, type Dataset, type DatasetChanges, type Diagnostic,
} from "../../dataset";

interface CheckOptions {
  readonly format: string;
  readonly allowWarnings: boolean;
  readonly against?: string;
}

/** `code-comparison check <folder>`: is the data set in order, and if not, where; and what changed since. */
export function registerCheckCommand(program: Command): void {
  program
    .command("check")
    .description("check data set folders: every fault with file, row, column, value and what was expected")
    .argument("<folder...>", "data set folders, each with tests.csv")
    .option("--format <format>", "text, json or html (a page to pass on)", "text")
    .option("--allow-warnings", "exit with 0 when there are warnings but no errors", false)
    .option("--against <folder or manifest>", "list what changed since that folder (row by row) or manifest.json (file by file)")
    .addHelpText("after", "\nExample:\n  code-comparison check datasets/own/my-campaign\n\nExit code: 0 in order, 1 something was found or has changed, 2 wrong use.")
    .action(async (folders: string[], options: CheckOptions) => {
      process.exitCode = await check(folders, options);
    });
}

async function check(folders: ReadonlyArray<string>, { format, allowWarnings, against }: CheckOptions): Promise<number> {
  if (format !== "text" && format !== "json" && format !== "html") {
    console.error(`--format "${format}" is not known, expected text, json or html`);
    return 2;
  }
  try {
    const dataset = await readDatasets(folders);
    const { setAside, hashes, tests } = dataset;
    const compared = against === undefined ? { changes: null, findings: [] } : await compareWith(against, dataset);
    const diagnostics = [...dataset.diagnostics, ...compared.findings, ...duplicateFindings(tests, dataset.name), ...predictionFindings(tests, dataset.name)];
    const { changes } = compared;
    if (format === "json") {
      console.log(JSON.stringify({ rows: tests.length, excluded: tests.excluded().length, setAside, diagnostics, hashes, ...(changes === null ? {} : { changes }) }, null, 2));
    } else if (format === "html") {
      console.log(diagnosticHtml(dataset, diagnostics));
    } else {
      console.log(datasetSummary({ ...dataset, diagnostics }));
      if (diagnostics.length > 0) console.log(`\n${diagnosticReport(diagnostics)}`);
      if (changes !== null) console.log(`\nAgainst ${against ?? ""}:\n${changesReport(changes)}`);
    }
    const counts = countBySeverity(diagnostics);
    const hasChanged = changes !== null && changes.added.length + changes.removed.length + changes.changed.length > 0;
    return counts.error > 0 || hasChanged || (counts.warning > 0 && !allowWarnings) ? 1 : 0;
  } catch (error) {
    if (!(error instanceof DatasetError)) throw error;
    if (format === "json") console.log(JSON.stringify({ rows: 0, excluded: 0, setAside: [], diagnostics: error.diagnostics, hashes: {} }, null, 2));
    else console.error(error.message);
    return 2;
  }
}

async function compareWith(against: string, dataset: Dataset): Promise<{ changes: DatasetChanges | null; findings: Diagnostic[] }> {
  const found = await stat(against).catch(() => null);
  if (found === null) throw new DatasetError(`${against} does not exist, expected a data set folder or a manifest.json`);
  if (found.isDirectory()) return { changes: datasetChanges((await readDatasets([against])).tests, dataset.tests), findings: [] };
  return { changes: null, findings: hashChanges(manifestHashes(await readFile(against, "utf8"), against), dataset.hashes) };
}

/** The data hashes of a manifest: an object of file names and SHA-256, at the top or under "data" or "hashes". */
function manifestHashes(text: string, file: string): Record<string, string> {
  let parsed: unknown = null;
  try {
    parsed = JSON.parse(text);
  } catch {
    // Reported below together with every other unfit content.
  }
  const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null && !Array.isArray(value);
  for (const candidate of isRecord(parsed) ? [parsed["data"], parsed["hashes"], parsed] : []) {
    if (!isRecord(candidate)) continue;
    const hashes = Object.entries(candidate).filter((entry): entry is [string, string] => typeof entry[1] === "string" && /^[0-9a-f]{64}$/.test(entry[1]));
    if (hashes.length > 0) return Object.fromEntries(hashes);
  }
  throw new DatasetError(`${file} holds no SHA-256 of data files, expected a manifest such as exports/manifest.json or the answer of check --format json`);
}
