import type { Command } from "commander";
import {
  accountOf,
  assumedStrength,
  compare,
  groupRatios,
  rejectedOnReading,
  SETUP_FACTORS,
  verdictLines,
  type BoundRule,
  type Comparison,
  type ComparisonSettings,
  type RatioGroup,
  type RowAccount,
  type Scope,
  type SetupFactorName,
  type Way,
} from "../../comparison";
import { diagnosticReport, readDatasets } from "../../dataset";
import { brokenLine } from "../../formula";
import { predictionNeeds } from "../../provisions";
import { ratioGroupTable } from "../../tables";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import {
  byOption,
  characteristicOptions,
  codeNamed,
  codeOption,
  formatOption,
  groupingColumns,
  levelNamed,
  levelOption,
  readingsNamed,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { oneOf, positiveNumber, share } from "../use/wrong-use";
import { groupJson } from "./group-json";
import { accountJson, accountLines } from "./row-account";

const FORMATS = ["text", "markdown", "csv", "json"] as const;
const WAYS: readonly Way[] = ["mode_matched", "governing"];
const SCOPES: readonly Scope[] = ["judged", "all"];
const BOUNDS: readonly BoundRule[] = ["stated", "every"];

interface CompareOptions {
  readonly by: string;
  readonly code: string;
  readonly level: string;
  readonly way: string;
  readonly scope: string;
  readonly bounds: string;
  readonly fractile: string;
  readonly confidence: string;
  readonly confinedBond?: string;
  readonly distribution?: string;
  readonly cells?: string;
  readonly require?: string;
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
  readonly format: string;
}

/** `code-comparison compare <folder>`: test-to-predicted ratios by group, with verdicts. */
export function registerCompareCommand(program: Command): void {
  program
    .command("compare")
    .description(
      "compute test-to-predicted ratios, 5 % fractiles with bounds, and verdicts by group",
    )
    .argument("<folder...>", "data set folders, each with tests.csv")
    .addOption(byOption())
    .addOption(codeOption())
    .addOption(levelOption())
    .option(
      "--way <way>",
      "mode_matched (capacity of the mode observed) or governing (lowest capacity)",
      "mode_matched",
    )
    .option(
      "--scope <scope>",
      "which pairs of test and provision enter the ratios: judged, or all (every pair that has a capacity and a load)",
      "judged",
    )
    .option(
      "--bounds <rule>",
      "lower bounds: every (any failure is a lower bound of all other possible modes) or stated (only rupture, yield, grip failure or a stop of concrete and bond modes, and bond of rupture)",
      "every",
    )
    .option(
      "--confined-bond <factor>",
      `confined tests judge bond with their load times this: a number, ${Object.keys(SETUP_FACTORS).join(" or ")} (default: they do not judge bond)`,
    )
    .addOption(characteristicOptions()[0])
    .addOption(characteristicOptions()[1])
    .option(
      "--distribution <name>",
      "normal or lognormal (default: that of the code's family: lognormal for EN and fib, else normal)",
    )
    .option(
      "--cells <columns>",
      "columns by which the mean ratio may differ within a group, such as layout,adhesive; none for one cell (default: those with which it differs)",
    )
    .option(
      "--require <verdict>",
      "exit with 1 unless every group has this verdict in general: meets",
    )
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addOption(formatOption(FORMATS))
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison compare datasets/demo --by mode,bar_material,bar_size --code aci318-19 --format json\n\nVerdicts: meets (lower bound of the fractile at least 1.0), falls short (upper bound below 1.0), undecided (neither). As tested: for the series tested, series effect ignored. In general: for a further series, series effect included, of the worst cell; needs 3 series.\n\nExit code: 0 the comparison was made, whatever it finds; 1 with --require meets where a group does not meet, 2 invalid option or input.",
    )
    .action(answering(runCompare));
}

async function runCompare(folders: readonly string[], options: CompareOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const settings = {
    level: levelNamed(options.level),
    way: oneOf("way", options.way, WAYS),
    scope: oneOf("scope", options.scope, SCOPES),
    bounds: oneOf("bounds", options.bounds, BOUNDS),
    readings: readingsNamed(options),
    ...confinedBond(options.confinedBond),
  };
  const question = {
    fractile: share("fractile", options.fractile),
    confidence: share("confidence", options.confidence),
    ...(options.distribution === undefined
      ? {}
      : { distribution: oneOf("distribution", options.distribution, ["normal", "lognormal"]) }),
  };
  const judged = codeNamed(options.code);
  if (options.require !== undefined) oneOf("require", options.require, ["meets"]);
  const data = await readDatasets(folders);
  const by = groupingColumns(options.by, data.tests);
  const comparison = compare(data.tests, judged, settings);
  const cells =
    options.cells === undefined
      ? {}
      : {
          cells:
            options.cells === "none" ? [] : groupingColumns(options.cells, data.tests, "cells"),
        };
  const groups = groupRatios(comparison, by, { ...question, ...cells });
  const errors = data.diagnostics.filter(({ severity }) => severity === "error");
  if (errors.length > 0) console.error(diagnosticReport(errors));
  const account = accountOf(comparison, rejectedOnReading(data.setAside));
  if (format === "json") printJson(groups, comparison, account);
  else print(groups, account, options, format);
  for (const says of restsOn(comparison, settings)) console.error(`\n${says}`);
  return options.require === undefined ||
    (groups.length > 0 && groups.every(({ verdict }) => verdict === options.require))
    ? 0
    : 1;
}

/** The factor on confined tests, where one was asked for. @throws WrongUse */
function confinedBond(given: string | undefined): Pick<ComparisonSettings, "confinedBondFactor"> {
  if (given === undefined) return {};
  const name = Object.keys(SETUP_FACTORS).find(
    (known): known is SetupFactorName => known === given,
  );
  return { confinedBondFactor: name ?? positiveNumber("confined-bond", given) };
}

/** What the ratios rest on that nobody stated: said beside the answer, whatever its format. */
function restsOn(comparison: Comparison, settings: ComparisonSettings): string[] {
  const { tests, code, evidence } = comparison;
  const needs = predictionNeeds(code, tests);
  const silent = new Set(
    needs.filter(({ effect }) => effect === "read_as_far").flatMap(({ rows }) => rows),
  );
  const n = evidence.filter(
    ({ row, mode }) => silent.has(row) && mode === "concrete_breakout",
  ).length;
  const edges =
    n === 0
      ? []
      : [
          `${n === 1 ? "1 ratio of concrete breakout rests" : `${String(n)} ratios of concrete breakout rest`} on unstated edges: with neither an edge distance nor other_edges = far, every edge is read as remote, which gives the largest capacity.`,
        ];
  const uncapped = needs.filter(({ effect }) => effect === "read_as_uncapped");
  const m = evidence.filter(({ row, mode }) =>
    uncapped.some(
      ({ provision, rows }) =>
        (provision.modes as readonly string[]).includes(mode) && rows.includes(row),
    ),
  ).length;
  const strength =
    m === 0
      ? []
      : [
          `${m === 1 ? "1 ratio of bond rests" : `${String(m)} ratios of bond rest`} on no stated bar strength: the stress developed is then not capped, which gives the largest capacity.`,
        ];
  const assumed = assumedStrength(comparison, settings);
  return [...edges, ...strength, ...(assumed === null ? [] : [assumed.reading])];
}

function printJson(
  groups: readonly RatioGroup[],
  comparison: Comparison,
  account: RowAccount,
): void {
  const {
    code,
    prediction: { level },
    way,
    scope,
  } = comparison;
  console.log(
    JSON.stringify(
      {
        code: code.id,
        level,
        way,
        scope,
        groups: groups.map(groupJson),
        rows: accountJson(account),
      },
      null,
      2,
    ),
  );
}

function print(
  groups: readonly RatioGroup[],
  account: RowAccount,
  { code, level, way, scope }: CompareOptions,
  format: "text" | "markdown" | "csv",
): void {
  const pooled = scope === "all" ? ", all pairs pooled whether judged or not" : "";
  const table = ratioGroupTable(groups, {
    id: "ratios",
    title: `Test-to-predicted ratios, ${code}, ${level} level, ${way.replace("_", " ")}${pooled}`,
  });
  if (format === "csv") console.log(table.toCsv().trimEnd());
  else if (groups.length === 0)
    console.log(`No test gives a ratio by ${code} at the ${level} level.`);
  else console.log(format === "markdown" ? table.toMarkdown() : table.toText(terminalWidth()));
  if (format !== "csv" && groups.length > 0)
    console.log(
      [
        "",
        "Verdicts:",
        ...groups
          .flatMap(verdictLines)
          .map((line) =>
            format === "markdown" ? `- ${line}` : brokenLine(`  ${line}`, terminalWidth(), 4),
          ),
      ].join("\n"),
    );
  // A reader must see what is not in the table, and why; a CSV holds the table alone.
  (format === "csv" ? console.error : console.log)(
    [
      "",
      ...accountLines(account).map((line) => brokenLine(line, terminalWidth(), 4)),
      "For the inputs that each provision needs: code-comparison check <folder>",
    ].join("\n"),
  );
}
