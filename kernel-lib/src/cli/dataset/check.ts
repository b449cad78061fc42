import { readFile, stat, writeFile } from "node:fs/promises";
import { setFlagsFromString } from "node:v8";
import { Option, type Command } from "commander";
import { curveLinkFindings } from "../../curves";
import {
  changesReport,
  changesSinceManifest,
  countBySeverity,
  datasetChanges,
  DatasetError,
  datasetSummary,
  diagnosticHtml,
  diagnosticReport,
  duplicateFindings,
  generatedRowFindings,
  parseDataManifest,
  readDatasets,
  rowDigests,
  rowsSetAsideReport,
  sameTestFindings,
  type Dataset,
  type DatasetChanges,
  type Diagnostic,
  type DigestChanges,
} from "../../dataset";
import { answering } from "../use/answering";
import { dataFolders } from "../use/chosen-rows";
import { absent, helpNotes } from "../use/help";
import { codesNamed, codesOption, formatOption } from "../use/option-declarations";
import { oneOf, InvalidInput } from "../use/invalid-input";
import { loadUnitFindings } from "./load-unit-findings";
import { needFindings } from "./need-findings";
import { say } from "../use/printing";

const FORMATS = ["text", "json", "html"] as const;

/**
 * Left alone V8 lets garbage grow to several times what lives; of 500,000 tests that is 70 to 100
 * MB, and collecting sooner costs no time.
 */
const GARBAGE_PERCENT = 30;

/** Digests of more rows than this would make the answer as large as the data. */
const MOST_DIGESTED = 20_000;

interface CheckOptions {
  readonly format: string;
  readonly strict: boolean;
  readonly codes: string;
  readonly against?: string;
  readonly report?: string;
}

/**
 * `code-comparison check <folder>`: is the data set in order, and if not, where; and what changed
 * since.
 */
export function registerCheckCommand(program: Command): void {
  program
    .command("check")
    .description("check data sets; list each error with location, value and expected value")
    .argument("<folder...>", "studies, or data set folders with tests.csv (or .tsv, .json, .xlsx)")
    .addOption(formatOption(FORMATS))
    .addOption(
      absent(
        new Option("--report <file>", "also write the findings to this HTML file"),
        "no such file",
      ),
    )
    .option("--strict", "treat warnings as errors: exit with 1", false)
    .addOption(
      codesOption("codes for which missing inputs are listed; none to skip").default(
        "aci318-19,en1992-4-2018,aci440.1r-15,csa-s806-12",
      ),
    )
    .addOption(
      absent(
        new Option(
          "--against <place>",
          "list the rows and columns that changed since: an older copy of the folder, a manifest.json or an answer of check --format json",
        ),
        "no comparison",
      ),
    )
    .addHelpText(
      "after",
      helpNotes({
        examples: ["check my-study --report check.html"],
        exit: "0 no errors (warnings are listed); 1 errors, warnings with --strict, or changes with --against",
      }),
    )
    .action(answering(check));
}

async function check(
  folders: ReadonlyArray<string>,
  { format: wanted, strict, codes, against, report }: CheckOptions,
): Promise<number> {
  const format = oneOf("format", wanted, FORMATS);
  setFlagsFromString(`--heap-growing-percent=${String(GARBAGE_PERCENT)}`);
  const asked = codes === "none" ? [] : codesNamed(codes);
  try {
    const dataset = await readDatasets(dataFolders(folders));
    const { rejected, hashes, tests } = dataset;
    const compared =
      against === undefined ? { changes: null, findings: [] } : await compareWith(against, dataset);
    const diagnostics = [
      ...dataset.diagnostics,
      ...compared.findings,
      ...(await curveLinkFindings(dataset)),
      ...duplicateFindings(tests, dataset.name),
      ...sameTestFindings(tests, dataset.name),
      ...generatedRowFindings(tests, dataset.name),
      ...loadUnitFindings(tests, asked, dataset.name),
      ...needFindings(tests, asked, dataset.name),
    ];
    const { changes } = compared;
    if (report !== undefined) await writeFile(report, diagnosticHtml(dataset, diagnostics));
    if (format === "json") {
      say(
        JSON.stringify(
          {
            rows: tests.length,
            excluded: tests.excluded().length,
            rejected: rejected,
            diagnostics,
            hashes,
            ...(tests.length <= MOST_DIGESTED ? { rowDigests: rowDigests(tests) } : {}),
            ...(changes === null ? {} : { changes }),
          },
          null,
          2,
        ),
      );
    } else if (format === "html") {
      say(diagnosticHtml(dataset, diagnostics));
    } else {
      say(datasetSummary({ ...dataset, diagnostics }));
      if (diagnostics.length > 0) say(`\n${diagnosticReport(diagnostics)}`);
      if (rejected.length > 0) say(`\n${rowsSetAsideReport(rejected)}`);
      if (changes !== null) say(`\nAgainst ${against ?? ""}:\n${changesReport(changes)}`);
    }
    const counts = countBySeverity(diagnostics);
    const hasChanged =
      compared.findings.length > 0 ||
      (changes !== null &&
        changes.added.length + changes.removed.length + changes.changed.length > 0);
    return counts.error > 0 || hasChanged || (counts.warning > 0 && strict) ? 1 : 0;
  } catch (error) {
    if (!(error instanceof DatasetError)) throw error;
    if (format === "json")
      say(
        JSON.stringify(
          { rows: 0, excluded: 0, rejected: [], diagnostics: error.diagnostics, hashes: {} },
          null,
          2,
        ),
      );
    throw error;
  }
}

async function compareWith(
  against: string,
  dataset: Dataset,
): Promise<{
  changes: DatasetChanges | DigestChanges | null;
  findings: ReadonlyArray<Diagnostic>;
}> {
  const found = await stat(against).catch(() => null);
  if (found === null)
    throw new InvalidInput(
      `Invalid --against "${against}": it does not exist. Use a data set folder or a manifest.json.`,
    );
  if (found.isDirectory())
    return {
      changes: datasetChanges((await readDatasets([against])).tests, dataset.tests),
      findings: [],
    };
  return changesSinceManifest(
    parseDataManifest(await readFile(against, "utf8"), against),
    dataset,
    against,
  );
}
