import { readFile, stat, writeFile } from "node:fs/promises";
import type { Command } from "commander";
import {
  changesReport, countBySeverity, curveLinkFindings, datasetChanges, DatasetError, datasetSummary, diagnosticHtml, diagnosticReport, duplicateFindings, hashChanges, readDatasets, rowsSetAsideReport, type Dataset, type DatasetChanges, type Diagnostic,
} from "../../dataset";
import { code } from "../../provisions";
import { needFindings } from "./need-findings";

interface CheckOptions {
  readonly format: string;
  readonly strict: boolean;
  readonly codes: string;
  readonly against?: string;
  readonly report?: string;
}

/** `code-comparison check <folder>`: is the data set in order, and if not, where; and what changed since. */
export function registerCheckCommand(program: Command): void {
  program
    .command("check")
    .description("check data set folders: every fault with file, row, column, value and what was expected")
    .argument("<folder...>", "data set folders, each with tests.csv (or .tsv, .json, .xlsx)")
    .option("--format <format>", "text, json or html (a page to pass on)", "text")
    .option("--report <file>", "also write the findings as a page (HTML) to this file")
    .option("--strict", "warnings count as faults: exit with 1 when there are any", false)
    .option("--codes <ids>", "codes whose provisions are asked what they need; none for no such question", "aci318-19,en1992-4-2018,aci440.1r-15,csa-s806-12")
    .option("--against <folder or manifest>", "list what changed since that folder (row by row) or manifest.json (file by file)")
    .addHelpText("after", "\nExample:\n  code-comparison check datasets/own/my-campaign --report check.html\n\nExit code: 0 no errors (warnings are listed), 1 errors, or something changed with --against, or warnings with --strict, 2 wrong use.")
    .action(async (folders: string[], options: CheckOptions) => {
      process.exitCode = await check(folders, options);
    });
}

async function check(folders: ReadonlyArray<string>, { format, strict, codes, against, report }: CheckOptions): Promise<number> {
  if (format !== "text" && format !== "json" && format !== "html") {
    console.error(`--format "${format}" is not known, expected text, json or html`);
    return 2;
  }
  const asked = codes === "none" ? [] : codes.split(",").map((id) => code(id.trim()));
  try {
    const dataset = await readDatasets(folders);
    const { setAside, hashes, tests } = dataset;
    const compared = against === undefined ? { changes: null, findings: [] } : await compareWith(against, dataset);
    const diagnostics = [...dataset.diagnostics, ...compared.findings, ...(await curveLinkFindings(dataset)), ...duplicateFindings(tests, dataset.name), ...needFindings(tests, asked, dataset.name)];
    const { changes } = compared;
    if (report !== undefined) await writeFile(report, diagnosticHtml(dataset, diagnostics));
    if (format === "json") {
      console.log(JSON.stringify({ rows: tests.length, excluded: tests.excluded().length, setAside, diagnostics, hashes, ...(changes === null ? {} : { changes }) }, null, 2));
    } else if (format === "html") {
      console.log(diagnosticHtml(dataset, diagnostics));
    } else {
      console.log(datasetSummary({ ...dataset, diagnostics }));
      if (diagnostics.length > 0) console.log(`\n${diagnosticReport(diagnostics)}`);
      if (setAside.length > 0) console.log(`\n${rowsSetAsideReport(setAside)}`);
      if (changes !== null) console.log(`\nAgainst ${against ?? ""}:\n${changesReport(changes)}`);
    }
    const counts = countBySeverity(diagnostics);
    const hasChanged = compared.findings.length > 0 || (changes !== null && changes.added.length + changes.removed.length + changes.changed.length > 0);
    return counts.error > 0 || hasChanged || (counts.warning > 0 && strict) ? 1 : 0;
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
