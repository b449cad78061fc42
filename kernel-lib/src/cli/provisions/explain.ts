import { Option, type Command } from "commander";
import { didYouMean, type TestTable } from "../../dataset";
import {
  clauseOf,
  governingSentence,
  interactionTrace,
  placingOf,
  predict,
  trace,
  type CodeDefinition,
  type PredictionSettings,
  type Trace,
} from "../../provisions";
import { findTest, type TestOptions } from "./find-test";
import { inOrder, overviewTable } from "./overview-table";
import { predictionRows } from "../../provisions/printing/prediction-rows";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import { dataOption, whereOption } from "../use/chosen-rows";
import { absent, helpNotes } from "../use/help";
import {
  codeNamed,
  codeSettingOption,
  formatOption,
  levelNamed,
  levelOption,
  oneCodeOption,
  readingsNamed,
  settingsFor,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { InvalidInput, listed, oneOf, positiveNumber } from "../use/invalid-input";
import { lengthTraces, lengthAnswer } from "./length-answers";
import { listedOnce, printed, placingList } from "./print-explanation";
import { say } from "../use/printing";

const FORMATS = ["text", "markdown", "html", "latex", "json"] as const;

interface ExplainOptions extends TestOptions {
  readonly codes: string;
  readonly level: string;
  readonly clause?: string;
  readonly all: boolean;
  readonly lengthFor?: string;
  readonly format: string;
  readonly option: readonly string[];
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
}

/** `code-comparison explain <test_id>`: the hand calculation of one test, clause by clause. */
export function registerExplainCommand(program: Command): void {
  program
    .command("explain")
    .description(
      "print the hand calculation of one test by one code, step by step: all capacities, then inputs, steps, clauses and limits of the one that governs",
    )
    .argument("[test_id]", "the test, as in tests.csv; may be omitted where --where chooses one")
    .addOption(oneCodeOption())
    .addOption(dataOption())
    .addOption(whereOption())
    .addOption(levelOption())
    .addOption(
      absent(new Option("--clause <clause>", "this clause only, e.g. 17.6.5"), "every clause"),
    )
    .option("--all", "print the calculation of every capacity, the governing one first", false)
    .addOption(
      absent(
        new Option(
          "--length-for <MPa>",
          "also print the development length of this bar for a stress, by the codes that state one",
        ),
        "no length",
      ),
    )
    .addOption(formatOption(FORMATS))
    .addOption(codeSettingOption())
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "explain gfrp-nc-19.1-low-95 --codes aci318-19 --data datasets/published",
          "explain IH-114-1 --codes aci440.1r-15 --length-for 550",
          "explain IH-006-1 --all --format html > IH-006-1.html",
        ],
        exit: "0 explained; 1 no capacity applies to the test",
      }),
    )
    .action(answering(explain));
}

async function explain(named: string | undefined, options: ExplainOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const code = codeNamed(options.codes);
  const [settings = {}] = settingsFor(
    [code],
    levelNamed(options.level),
    options.option,
    readingsNamed(options),
  );
  const { tests, row: i, id } = await findTest(named, options);
  const rows = predictionRows(
    code,
    tests,
    settings,
    { everyAction: options.clause !== undefined, steps: format === "json" },
    i,
  ).filter(({ clause }) => clause === (options.clause ?? clause));
  if (rows.length === 0) throw new InvalidInput(noneSays(code, options, tests, i));
  const lengths =
    options.lengthFor === undefined
      ? []
      : lengthTraces(code, tests, i, positiveNumber("length-for", options.lengthFor), settings);
  const governs = governingSentence(predict(code, tests, settings), i);
  const placing = options.clause === undefined ? placingOf(code, tests, i, settings) : [];
  if (format === "json")
    say(
      JSON.stringify(
        {
          test_id: id,
          code: code.id,
          level: options.level,
          governing: governs,
          provisions: rows,
          placing,
          ...(lengths.length > 0 ? { lengths: lengths.map((each) => lengthAnswer(each)) } : {}),
        },
        null,
        2,
      ),
    );
  else {
    // What does not apply stands in the overview alone, unless it was asked for by its clause.
    const applying = inOrder(rows);
    const followed =
      options.clause !== undefined
        ? rows
        : options.all || !applying.some((row) => row.governs)
          ? applying
          : applying.filter((row) => row.governs);
    const alone =
      options.clause === undefined
        ? { width: terminalWidth() }
        : { width: terminalWidth(), governing: governs };
    const traces = listedOnce(
      [...followed.map(({ clause }) => traceOf(code, clause, tests, i, settings)), ...lengths],
      { test: id, ...alone },
    );
    const more =
      followed.length < applying.length
        ? "The governing calculation follows; --all also prints the others, --clause that of one clause."
        : "";
    const overview =
      options.clause === undefined
        ? [overviewTable(code, rows, id, options.level, governs, more)]
        : [];
    say(
      await printed(
        overview,
        traces,
        [placingList(placing, id)].filter(({ rows: lines }) => lines.length > 0),
        format,
        `test ${id} by ${code.id}`,
      ),
    );
  }
  return rows.some(({ applies }) => applies) ? 0 : 1;
}

function noneSays(
  code: CodeDefinition,
  { clause, level }: ExplainOptions,
  tests: TestTable,
  i: number,
): string {
  const clauses = code.provisions
    .filter((provision) => provision.levels.some((each) => each === level))
    .map((provision) => clauseOf(provision.id));
  if (clause !== undefined)
    return `Invalid --clause "${clause}"${didYouMean(clause, clauses)}. ${code.id} states ${clauses.length === 0 ? "no clause" : clauses.join(", ")} at the ${level} level.`;
  const action = tests.texts("action")[i] ?? "an unknown action";
  const levels = [
    ...new Set(
      code.provisions.filter((each) => each.action === action).flatMap((each) => each.levels),
    ),
  ];
  const stated = [...new Set(code.provisions.flatMap((each) => each.levels))].join(", ");
  return `${code.id} states nothing for ${action} at the ${level} level (its levels: ${stated}). Use ${levels.length > 0 ? `--level ${listed(levels)}` : "another code"}.`;
}

function traceOf(
  code: CodeDefinition,
  clause: string,
  tests: TestTable,
  i: number,
  settings: PredictionSettings,
): Trace {
  const provision = code.provisions.find((each) => clauseOf(each.id) === clause);
  const joint = provision ? null : interactionTrace(predict(code, tests, settings), i);
  if (joint !== null) return joint;
  if (!provision) throw new Error(`${code.id} has no clause ${clause}.`);
  return trace(code, provision, tests, i, settings);
}
