import { Option, type Command } from "commander";
import {
  betterGrip,
  compare,
  gripMargins,
  gripStrengths,
  type BetterGrip,
  type GripMargins,
  type GripStrengths,
} from "../../comparison";
import type { TestTable } from "../../dataset";
import { brokenLine } from "../../formula";
import type { FailureMode } from "../../provisions";
import { betterGripTable, gripMarginTable, gripStrengthTable } from "../../tables";
import { TABLE_FORMATS, tableText } from "../provisions/table-format";
import { answering } from "../use/answering";
import { askedJson, askedWords } from "../use/asked-words";
import { readRows, whereOption } from "../use/chosen-rows";
import { absent, helpNotes } from "../use/help";
import {
  characteristicOptions,
  codeNamed,
  codeSettingOption,
  formatOption,
  levelNamed,
  levelOption,
  oneCodeOption,
  optionsFor,
  readingsNamed,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { terminalWidth } from "../use/terminal-width";
import { invalidOption, listed, names, oneOf, positiveNumber, share } from "../use/invalid-input";
import { gripsJson } from "./grips-json";
import { say } from "../use/printing";

const FORMATS = [...TABLE_FORMATS, "json"] as const;
/** Modes of concrete and bond in tension: what a grip must not keep a test from. */
const MODES: readonly FailureMode[] = [
  "bond",
  "combined_cone_bond",
  "concrete_breakout",
  "splitting",
];

interface GripsOptions {
  readonly by: string;
  readonly mode: string;
  readonly where?: string;
  readonly codes: string;
  readonly option: readonly string[];
  readonly level: string;
  readonly confinedBond?: string;
  readonly fractile: string;
  readonly confidence: string;
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
  readonly format: string;
}

const HELP = helpNotes({
  examples: ["grips datasets/demo --mode bond --confined-bond 0.75"],
  notes: [
    "Tests that ended in another way are lower bounds of their grip. Reliable share: the share of bar strength below which at most 5 % of bars break in the grip (90 % confidence).",
  ],
  exit: "0 answered; 1 no test names its grip",
});

/**
 * `code-comparison grips <folder>`: breaks in the grip, what a better grip would have shown,
 * margins.
 */
export function registerGripsCommand(program: Command): void {
  program
    .command("grips")
    .description(
      "find how often and at which share of its strength a bar breaks in each grip, what a better grip would have shown, and the margin a grip needs over the mode under study",
    )
    .argument(
      "<folder...>",
      "data set folders, each with tests.csv; column grip: how the bar was held",
    )
    .option("--by <columns>", "columns to group grips by, separated by commas", "grip,bar_material")
    .option("--mode <mode>", `mode under study: ${listed(MODES)}`, "bond")
    .addOption(whereOption())
    .addOption(oneCodeOption())
    .addOption(codeSettingOption())
    .addOption(levelOption())
    .addOption(
      absent(
        new Option(
          "--confined-bond <factor>",
          "use confined tests for bond, their load times this, such as 0.75",
        ),
        "confined tests are not used for bond",
      ),
    )
    .addOption(characteristicOptions()[0])
    .addOption(characteristicOptions()[1])
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addOption(formatOption(FORMATS))
    .addHelpText("after", HELP)
    .action(answering(runGrips));
}

async function runGrips(folders: readonly string[], options: GripsOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const mode = oneOf("mode", options.mode, MODES);
  const question = {
    fractile: share("fractile", options.fractile),
    confidence: share("confidence", options.confidence),
  };
  const code = codeNamed(options.codes);
  const { confinedBond } = options;
  const confined =
    confinedBond === undefined
      ? {}
      : { confinedBondFactor: positiveNumber("confined-bond", confinedBond) };
  const settings = {
    level: levelNamed(options.level),
    readings: readingsNamed(options),
    options: optionsFor([code], options.option)[0] ?? {},
    ...confined,
  };
  const { tests } = await readRows(folders, options.where);
  const { table } = tests.chosen;
  const by = wordColumns(options.by, table, tests.columnNames);
  const strengths = gripStrengths(table, { by, ...question });
  const comparison = compare(table, code, settings);
  const [margins, better] = [gripMargins(strengths, comparison, mode), betterGrip(comparison)];
  if (format === "json") {
    const asked = {
      code: code.id,
      level: settings.level,
      mode,
      ...askedJson(options),
      ...question,
    };
    say(JSON.stringify({ ...asked, ...gripsJson(strengths, margins, better) }, null, 2));
  } else if (strengths.groups.length === 0) printNone(strengths);
  else {
    const by = `${code.id}, ${settings.level} level${askedWords(options)}`;
    print(strengths, margins, better, by, format);
  }
  return strengths.groups.length > 0 ? 0 : 1;
}

/** The columns of `--by`, which must hold words. */
function wordColumns(by: string, tests: TestTable, known: readonly string[]): string[] {
  const columns = names("by", by, "columns");
  for (const column of columns) {
    if (tests.has(column) && (tests.words(column) !== null || holdsTexts(tests, column))) continue;
    throw invalidOption(
      "by",
      column,
      "a column of words, such as grip, bar_material, bar_surface or bar_size",
      known,
    );
  }
  return columns;
}

function holdsTexts(tests: TestTable, column: string): boolean {
  try {
    return tests.texts(column).length === tests.length;
  } catch {
    return false;
  }
}

function printNone({ unused }: GripStrengths): void {
  const said = unused.map(({ reason, n }) => `  ${n} not used: ${reason}`);
  say(["No test names its grip. Fill in column grip.", ...said].join("\n"));
}

function print(
  strengths: GripStrengths,
  margins: GripMargins,
  better: BetterGrip,
  by: string,
  format: string,
): void {
  const mode = margins.mode.replaceAll("_", " ");
  const tables = [
    gripStrengthTable(strengths, {
      id: "grips",
      title: "Breaks in the grip, as a share of bar strength",
    }),
    gripMarginTable(margins, {
      id: "grip-margins",
      title: `Margin over ${mode} that a grip needs, ${by}`,
    }),
    betterGripTable(better, {
      id: "better-grip",
      title: `What a better grip would have shown, ${by}`,
    }),
  ];
  say(tables.map((table) => tableText(table, format)).join("\n\n"));
  if (format === "csv" || format === "html") return;
  const findings = [...strengths.groups, ...margins.margins].map(({ reading }) => reading);
  const lines = findings.map((one) =>
    format === "markdown" ? `- ${one}` : brokenLine(`  ${one}`, terminalWidth(), 4),
  );
  say(["", "Findings:", ...lines].join("\n"));
}
