import type { Command } from "commander";
import { assumedStrength, compare, groupRatios, type BoundRule, type Comparison, type ComparisonSettings, type RatioGroup, type Way } from "../../comparison";
import { diagnosticReport, readDatasets } from "../../dataset";
import { predictionNeeds } from "../../provisions";
import { ratioGroupTable } from "../../tables";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import { byOption, characteristicOptions, codeNamed, codeOption, formatOption, groupingColumns, levelNamed, levelOption, readingsNamed, uncrackedBondOption, unknownStrengthOption } from "../use/option-declarations";
import { oneOf, share } from "../use/wrong-use";

const FORMATS = ["text", "markdown", "csv", "json"] as const;
const WAYS: readonly Way[] = ["mode_matched", "governing"];
const BOUNDS: readonly BoundRule[] = ["stated", "every"];

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
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
  readonly format: string;
}

/** `code-comparison compare <folder>`: test-to-predicted ratios by group, with verdicts. */
export function registerCompareCommand(program: Command): void {
  program
    .command("compare")
    .description("test-to-predicted ratios of data set folders by group, with characteristic values and verdicts")
    .argument("<folder...>", "data set folders, each with tests.csv")
    .addOption(byOption())
    .addOption(codeOption())
    .addOption(levelOption())
    .option("--way <way>", "mode_matched (the capacity of the mode observed) or governing (the least capacity)", "mode_matched")
    .option("--bounds <rule>", "which failures bound another mode: stated or every", "stated")
    .addOption(characteristicOptions()[0])
    .addOption(characteristicOptions()[1])
    .option("--distribution <name>", "normal or lognormal", "normal")
    .option("--basis <basis>", "what a verdict rests on: series (tests of one series are alike) or tests (taken as independent)", "series")
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addOption(formatOption(FORMATS))
    .addHelpText("after", "\nExample:\n  code-comparison compare datasets/demo --by bar_material,bar_size,failure_mode --code aci318-19 --format json\n\nExit code: 0 every group meets, 1 a group falls short or has too few tests, 2 wrong use.")
    .action(answering(runCompare));
}

async function runCompare(folders: readonly string[], options: CompareOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const settings = { level: levelNamed(options.level), way: oneOf("way", options.way, WAYS), bounds: oneOf("bounds", options.bounds, BOUNDS), readings: readingsNamed(options) };
  const question = { fractile: share("fractile", options.fractile), confidence: share("confidence", options.confidence), distribution: oneOf("distribution", options.distribution, ["normal", "lognormal"]), basis: oneOf("basis", options.basis, ["series", "tests"]) };
  const judged = codeNamed(options.code);
  const data = await readDatasets(folders);
  const by = groupingColumns(options.by, data.tests);
  const comparison = compare(data.tests, judged, settings);
  const groups = groupRatios(comparison, by, question);
  const errors = data.diagnostics.filter(({ severity }) => severity === "error");
  if (errors.length > 0) console.error(diagnosticReport(errors));
  print(groups, comparison, options, format);
  for (const says of restsOn(comparison, settings)) console.error(`\n${says}`);
  return groups.length > 0 && groups.every(({ verdict }) => verdict === "meets") ? 0 : 1;
}

/** What the ratios rest on that nobody stated: said beside the answer, whatever its format. */
function restsOn(comparison: Comparison, settings: ComparisonSettings): string[] {
  const { tests, code, evidence } = comparison;
  const needs = predictionNeeds(code, tests);
  const silent = new Set(needs.filter(({ effect }) => effect === "read_as_far").flatMap(({ rows }) => rows));
  const n = evidence.filter(({ row, mode }) => silent.has(row) && mode === "concrete_breakout").length;
  const edges = n === 0 ? [] : [`${n === 1 ? "1 ratio of concrete breakout rests" : `${String(n)} ratios of concrete breakout rest`} on edges that nobody stated: no edge distance and no other_edges = far stand in their rows, and every edge is read as far, which gives the largest capacity.`];
  const uncapped = needs.filter(({ effect }) => effect === "read_as_uncapped");
  const m = evidence.filter(({ row, mode }) => uncapped.some(({ provision, rows }) => (provision.modes as readonly string[]).includes(mode) && rows.includes(row))).length;
  const strength = m === 0 ? [] : [`${m === 1 ? "1 ratio of bond rests" : `${String(m)} ratios of bond rest`} on no bar strength: where none is stated, the stress developed is capped nowhere, which gives the largest capacity.`];
  const assumed = assumedStrength(comparison, settings);
  return [...edges, ...strength, ...(assumed === null ? [] : [assumed.reading])];
}

function print(groups: readonly RatioGroup[], comparison: Comparison, { code, level, way }: CompareOptions, format: (typeof FORMATS)[number]): void {
  if (format === "json") {
    console.log(JSON.stringify(groups.map((group) => ({
      by: group.by, n: group.n, n_censored: group.nCensored, mean: group.mean, sd: group.sd, cov: group.cov, min: group.min, mean_minus_3sd: group.meanMinus3Sd, k: group.k,
      characteristic: group.characteristic, share_below_1: group.shareBelow1, verdict: group.verdict, reason: group.reason,
      basis: group.basis, characteristic_of_tests: group.characteristicOfTests, characteristic_by_series: group.bySeries?.characteristic ?? null, series: group.series, series_failed: group.seriesFailed, correlation: group.bySeries?.correlation ?? null,
    })), null, 2));
    return;
  }
  const table = ratioGroupTable(groups, { id: "ratios", title: `Test-to-predicted ratios, ${code}, ${level} level, ${way.replace("_", " ")}` });
  if (format === "csv") console.log(table.toCsv().trimEnd());
  else if (groups.length === 0) console.log(`No test of these gives a ratio by ${code} at ${level} level.`);
  else console.log(format === "markdown" ? table.toMarkdown() : table.toText(terminalWidth()));
  // A reader must see what is not in the table, and why; a CSV holds the table alone.
  const without = withoutRatio(comparison);
  if (without.length > 0) (format === "csv" ? console.error : console.log)(["", "Tests without a ratio, and why:", ...without.map(({ reason, n }) => `  ${String(n)}: ${reason}`), "What each provision needs is said by: code-comparison check <folder>"].join("\n"));
}

function withoutRatio({ unused }: Comparison): { readonly reason: string; readonly n: number }[] {
  const counts = new Map<string, number>();
  for (const { reason } of unused) counts.set(reason, (counts.get(reason) ?? 0) + 1);
  return [...counts].map(([reason, n]) => ({ reason, n })).sort((a, b) => b.n - a.n);
}
