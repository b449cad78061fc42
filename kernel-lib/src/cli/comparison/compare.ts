import type { Command } from "commander";
import {
  accountOf,
  compare,
  groupRatios,
  rejectedOnReading,
  SETUP_FACTORS,
  type BoundRule,
  type ComparisonSettings,
  type Scope,
  type SetupFactorName,
  type Way,
} from "../../comparison";
import { diagnosticReport, readDatasets } from "../../dataset";
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
import { printJson, print } from "./print-comparison";
import { restsOn } from "./what-ratios-rest-on";

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
