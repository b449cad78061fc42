import type { Command } from "commander";
import { compare, groupRatios, type RatioGroup, type Way } from "../../comparison";
import { DatasetError, diagnosticReport, readDatasets } from "../../dataset";
import { code, type Level } from "../../provisions";
import { ratioGroupTable } from "../../tables";

interface CompareOptions {
  readonly by: string;
  readonly code: string;
  readonly level: string;
  readonly way: string;
  readonly bounds: string;
  readonly fractile: string;
  readonly confidence: string;
  readonly distribution: string;
  readonly basis: string;
  readonly format: string;
}

/** `code-comparison compare <folder>`: test-to-predicted ratios by group, with verdicts. */
export function registerCompareCommand(program: Command): void {
  program
    .command("compare")
    .description("test-to-predicted ratios of data set folders by group, with characteristic values and verdicts")
    .argument("<folder...>", "data set folders, each with tests.csv")
    .option("--by <columns>", "columns to group by, with commas; failure_mode is the mode the ratio belongs to", "failure_mode,bar_material")
    .option("--code <id>", "the code or model", "aci318-19")
    .option("--level <level>", "expected, nominal or design", "nominal")
    .option("--way <way>", "mode_matched or governing", "mode_matched")
    .option("--bounds <rule>", "which failures bound another mode: stated or every", "stated")
    .option("--fractile <p>", "fractile of the characteristic value", "0.05")
    .option("--confidence <p>", "confidence of the characteristic value", "0.90")
    .option("--distribution <name>", "normal or lognormal", "normal")
    .option("--basis <basis>", "what a verdict rests on: series (tests of one series are alike) or tests (taken as independent)", "series")
    .option("--format <format>", "text, markdown, csv or json", "text")
    .addHelpText("after", "\nExample:\n  code-comparison compare datasets/demo --by bar_material,bar_size,failure_mode --code aci318-19 --format json\n\nExit code: 0 every group meets, 1 a group falls short or has too few tests, 2 wrong use.")
    .action(async (folders: string[], options: CompareOptions) => {
      process.exitCode = await runCompare(folders, options);
    });
}

async function runCompare(folders: readonly string[], options: CompareOptions): Promise<number> {
  const wrong = wrongUse(options);
  if (wrong) {
    console.error(wrong);
    return 2;
  }
  try {
    const data = await readDatasets(folders);
    const by = options.by.split(",").map((name) => name.trim()).filter(Boolean);
    const comparison = compare(data.tests, code(options.code), { level: options.level as Level, way: options.way as Way, bounds: options.bounds as "stated" | "every" });
    const groups = groupRatios(comparison, by, { fractile: Number(options.fractile), confidence: Number(options.confidence), distribution: options.distribution as "normal" | "lognormal", basis: options.basis as "series" | "tests" });
    if (data.diagnostics.some(({ severity }) => severity === "error")) console.error(diagnosticReport(data.diagnostics.filter(({ severity }) => severity === "error")));
    print(groups, options);
    return groups.length > 0 && groups.every(({ verdict }) => verdict === "meets") ? 0 : 1;
  } catch (error) {
    if (!(error instanceof DatasetError) && !(error instanceof Error)) throw error;
    console.error(error.message);
    return 2;
  }
}

function wrongUse(options: CompareOptions): string | null {
  const choices: Record<string, readonly string[]> = {
    level: ["expected", "nominal", "design"], way: ["mode_matched", "governing"], bounds: ["stated", "every"], distribution: ["normal", "lognormal"], basis: ["series", "tests"], format: ["text", "markdown", "csv", "json"],
  };
  for (const [name, allowed] of Object.entries(choices)) {
    const given = options[name as keyof CompareOptions];
    if (!allowed.includes(given)) return `--${name} "${given}" is not known, expected ${allowed.join(", ")}`;
  }
  for (const name of ["fractile", "confidence"] as const) {
    const value = Number(options[name]);
    if (!(value > 0 && value < 1)) return `--${name} "${options[name]}" is not usable, expected a number between 0 and 1`;
  }
  return null;
}

function print(groups: readonly RatioGroup[], options: CompareOptions): void {
  if (options.format === "json") {
    console.log(JSON.stringify(groups.map((group) => ({
      by: group.by, n: group.n, n_censored: group.nCensored, mean: group.mean, sd: group.sd, cov: group.cov, min: group.min, mean_minus_3sd: group.meanMinus3Sd, k: group.k,
      characteristic: group.characteristic, share_below_1: group.shareBelow1, verdict: group.verdict, reason: group.reason,
      basis: group.basis, characteristic_of_tests: group.characteristicOfTests, characteristic_by_series: group.bySeries?.characteristic ?? null, series: group.series, series_failed: group.seriesFailed, correlation: group.bySeries?.correlation ?? null,
    })), null, 2));
    return;
  }
  const table = ratioGroupTable(groups, { id: "ratios", title: `Test-to-predicted ratios, ${options.code}, ${options.level} level, ${options.way.replace("_", " ")}` });
  console.log(options.format === "csv" ? table.toCsv() : options.format === "markdown" ? table.toMarkdown() : table.toText());
}
