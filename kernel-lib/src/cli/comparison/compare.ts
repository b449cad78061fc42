import { Option, type Command } from "commander";
import { SETUP_FACTORS, type ComparisonSettings, type GroupSettings } from "../../comparison";
import type { SetupFactorName, CapacityOf } from "../../comparison";
import type { Tests } from "../../face/tests/tests";
import { answering } from "../use/answering";
import { byOption, groupingColumns, readRows, whereOption } from "../use/chosen-rows";
import { absent, helpNotes } from "../use/help";
import { listed, oneOf, positiveNumber, share } from "../use/invalid-input";
import {
  characteristicOptions,
  codeSettingOption,
  codesNamed,
  codesOption,
  formatOption,
  levelNamed,
  levelOption,
  optionsFor,
  readingsNamed,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { requiredVerdict, requireOption } from "../use/required-verdict";
import { comparedGroups, LOWER_BOUNDS } from "./compared-groups";
import { furtherOptions, furtherTables } from "./further-tables";
import { COMPARED_FORMATS, print, printJson } from "./print-comparison";
import { restsOn } from "./what-ratios-rest-on";
import { tell } from "../use/printing";

/** Values of `--capacity-of`, and the rooms' names of them. */
const CAPACITY_OF: Readonly<Record<string, CapacityOf>> = {
  observed_mode: "observed mode",
  governing_mode: "governing mode",
};
const DISTRIBUTIONS = ["normal", "lognormal"] as const;

interface CompareOptions {
  readonly by: string;
  readonly where?: string;
  readonly codes: string;
  readonly option: readonly string[];
  readonly level: string;
  readonly capacityOf: string;
  readonly scope: string;
  readonly lowerBounds: string;
  readonly fractile: string;
  readonly confidence: string;
  readonly confinedBond?: string;
  readonly distribution?: string;
  readonly cells?: string;
  readonly versus?: string;
  readonly leaveOut?: string;
  readonly require?: string;
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
  readonly format: string;
}

/** `code-comparison compare <folder>`: test-to-predicted ratios by group, with verdicts. */
export function registerCompareCommand(program: Command): void {
  program
    .command("compare")
    .description("compute test-to-predicted ratios, characteristic values and verdicts by group")
    .argument("<folder...>", "studies, or data set folders with tests.csv")
    .addOption(byOption())
    .addOption(whereOption())
    .addOption(codesOption())
    .addOption(codeSettingOption())
    .addOption(levelOption())
    .addOption(
      new Option(
        "--capacity-of <mode>",
        "capacity that divides the load: observed_mode (of the mode observed) or governing_mode (the lowest)",
      ).default("observed_mode"),
    )
    .addOption(
      new Option(
        "--scope <scope>",
        "pairs of test and provision in the ratios: judged, or all (every pair with a capacity and a load)",
      ).default("judged"),
    )
    .addOption(
      new Option(
        "--lower-bounds <rule>",
        "used (a failure in any mode bounds all other possible modes), stopped_early (only rupture, yield, grip failure or a stop bounds concrete and bond modes; bond bounds rupture) or left_out",
      ).default("used"),
    )
    .addOption(
      absent(
        new Option(
          "--confined-bond <factor>",
          `use confined tests for bond, their load times this: a number, ${listed(Object.keys(SETUP_FACTORS))}`,
        ),
        "confined tests are not used for bond",
      ),
    )
    .addOption(characteristicOptions()[0])
    .addOption(characteristicOptions()[1])
    .addOption(
      absent(
        new Option("--distribution <name>", listed(DISTRIBUTIONS)),
        "lognormal for EN and fib, otherwise normal",
      ),
    )
    .addOption(
      absent(
        new Option(
          "--cells <columns>",
          "columns by which the mean ratio may differ within a group, such as layout,adhesive; none for one cell",
        ),
        "the columns with which it differs",
      ),
    )
    .addOption(furtherOptions()[0])
    .addOption(furtherOptions()[1])
    .addOption(requireOption("every group"))
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addOption(formatOption(COMPARED_FORMATS))
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "compare datasets/demo --by mode,bar_material,bar_size --format csv",
          "compare datasets/demo --by mode --where \"installation == 'post_installed'\" --versus steel",
        ],
        notes: [
          "Verdicts: meets (lower bound of the fractile at least 1.0), falls short (upper bound below 1.0), undecided (neither). As tested: for the series tested, series effect ignored. In general: for a new series, series effect included, of the worst cell; needs 3 series.",
        ],
        exit: "0 comparison made, whatever it finds; 1 with --require where a group does not meet",
      }),
    )
    .action(answering(runCompare));
}

async function runCompare(folders: readonly string[], options: CompareOptions): Promise<number> {
  const format = oneOf("format", options.format, COMPARED_FORMATS);
  const capacityOf = oneOf("capacity-of", options.capacityOf, Object.keys(CAPACITY_OF));
  const settings = {
    level: levelNamed(options.level),
    capacityOf: CAPACITY_OF[capacityOf]!,
    scope: oneOf("scope", options.scope, ["judged", "all"]),
    readings: readingsNamed(options),
    ...confinedBond(options.confinedBond),
  };
  const lowerBounds = oneOf("lower-bounds", options.lowerBounds, LOWER_BOUNDS);
  const codes = codesNamed(options.codes);
  const codeOptions = optionsFor(codes, options.option);
  const meets = requiredVerdict(options.require);
  const question = questionOf(options);
  const rows = await readRows(folders, options.where);
  const by = groupingColumns(options.by, rows.tests);
  const judge = { ...question, ...cellsOf(options.cells, rows.tests) };
  const compared = comparedGroups(rows.tests, codes, {
    by,
    judge,
    settings,
    lowerBounds,
    options: codeOptions,
  });
  const further = furtherTables(rows, compared, by, judge, options);
  const { level, scope } = settings;
  const asked = { ...options, level, scope, capacityOf, lowerBounds };
  if (format === "json") printJson(compared, further, asked);
  else print(compared, further, asked, format);
  for (const one of compared)
    for (const says of restsOn(one.comparison, one.settings)) tell(`\n${says}`);
  const groups = compared.flatMap((one) => one.groups);
  return meets === null || (groups.length > 0 && groups.every(meets)) ? 0 : 1;
}

function questionOf({ fractile, confidence, distribution }: CompareOptions): GroupSettings {
  return {
    fractile: share("fractile", fractile),
    confidence: share("confidence", confidence),
    ...(distribution === undefined
      ? {}
      : { distribution: oneOf("distribution", distribution, DISTRIBUTIONS) }),
  };
}

function cellsOf(cells: string | undefined, tests: Tests): Pick<GroupSettings, "cells"> {
  if (cells === undefined) return {};
  return { cells: cells === "none" ? [] : groupingColumns(cells, tests, "cells") };
}

/** The factor on confined tests, where one was asked for. @throws InvalidInput */
function confinedBond(given: string | undefined): Pick<ComparisonSettings, "confinedBondFactor"> {
  if (given === undefined) return {};
  const name = Object.keys(SETUP_FACTORS).find(
    (known): known is SetupFactorName => known === given,
  );
  return { confinedBondFactor: name ?? positiveNumber("confined-bond", given) };
}
