import type { Command } from "commander";
import {
  betterGrip,
  compare,
  gripMargins,
  gripStrengths,
  type BetterGrip,
  type GripMargins,
  type GripStrengths,
} from "../../comparison";
import { diagnosticReport, readDatasets, type TestTable } from "../../dataset";
import { brokenLine } from "../../formula";
import type { FailureMode } from "../../provisions";
import { betterGripTable, gripMarginTable, gripStrengthTable } from "../../tables";
import { TABLE_FORMATS, tableText } from "../provisions/table-format";
import { answering } from "../use/answering";
import {
  characteristicOptions,
  codeNamed,
  codeOption,
  formatOption,
  levelNamed,
  levelOption,
  readingsNamed,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { terminalWidth } from "../use/terminal-width";
import { names, oneOf, positiveNumber, share, WrongUse } from "../use/wrong-use";
import { gripsJson } from "./grips-json";

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
  readonly code: string;
  readonly level: string;
  readonly confinedBond?: string;
  readonly fractile: string;
  readonly confidence: string;
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
  readonly format: string;
}

const HELP = `
Example:
  code-comparison grips datasets/demo --mode bond --confined-bond 0.75

Tests that ended in another way are lower bounds of their grip. Reliable share: the share of bar strength
below which at most 5 % of bars break in the grip (90 % confidence).

Exit code: 0 answered, 1 no test names its grip, 2 invalid option or input.`;

/**
 * `code-comparison grips <folder>`: breaks in the grip, what a better grip would have shown,
 * margins.
 */
export function registerGripsCommand(program: Command): void {
  program
    .command("grips")
    .description(
      "how often and at which share of bar strength bars break in each grip, what a better grip " +
        "would have shown, and the margin over the mode under study that a grip needs",
    )
    .argument(
      "<folder...>",
      "data set folders, each with tests.csv; its column grip says how the bar was held",
    )
    .option("--by <columns>", "columns to group grips by, with commas", "grip,bar_material")
    .option("--mode <mode>", `mode under study: ${MODES.join(", ")}`, "bond")
    .addOption(codeOption())
    .addOption(levelOption())
    .option(
      "--confined-bond <factor>",
      "use confined tests for bond with this factor on their load, such as 0.75; " +
        "without it they are not used",
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
  const code = codeNamed(options.code);
  const { confinedBond } = options;
  const confined =
    confinedBond === undefined
      ? {}
      : { confinedBondFactor: positiveNumber("confined-bond", confinedBond) };
  const settings = {
    level: levelNamed(options.level),
    readings: readingsNamed(options),
    ...confined,
  };
  const data = await readDatasets(folders);
  const by = wordColumns(options.by, data.tests);
  const errors = data.diagnostics.filter(({ severity }) => severity === "error");
  if (errors.length > 0) console.error(diagnosticReport(errors));
  const strengths = gripStrengths(data.tests, { by, ...question });
  const comparison = compare(data.tests, code, settings);
  const [margins, better] = [gripMargins(strengths, comparison, mode), betterGrip(comparison)];
  if (format === "json") {
    const asked = { code: code.id, level: settings.level, mode, ...question };
    console.log(JSON.stringify({ ...asked, ...gripsJson(strengths, margins, better) }, null, 2));
  } else if (strengths.groups.length === 0) printNone(strengths);
  else print(strengths, margins, better, `${code.id}, ${settings.level} level`, format);
  return strengths.groups.length > 0 ? 0 : 1;
}

/** The columns of `--by`, which must hold words. */
function wordColumns(by: string, tests: TestTable): string[] {
  const columns = names("by", by, "columns");
  for (const column of columns) {
    if (tests.has(column) && (tests.words(column) !== null || holdsTexts(tests, column))) continue;
    throw new WrongUse(
      `--by "${column}" is no column of words of these tests. ` +
        "Use grip, bar_material, bar_surface, bar_size or another column of words",
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
  console.log(["No test names its grip. Fill in the column grip.", ...said].join("\n"));
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
  console.log(tables.map((table) => tableText(table, format)).join("\n\n"));
  if (format === "csv" || format === "html") return;
  const findings = [...strengths.groups, ...margins.margins].map(({ reading }) => reading);
  const lines = findings.map((one) =>
    format === "markdown" ? `- ${one}` : brokenLine(`  ${one}`, terminalWidth(), 4),
  );
  console.log(["", "Findings:", ...lines].join("\n"));
}
