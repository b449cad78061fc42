import type { Command } from "commander";
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
import { findTest } from "./find-test";
import { inOrder, overviewTable } from "./overview-table";
import { predictionRows } from "../../provisions/printing/prediction-rows";
import { terminalWidth } from "../use/terminal-width";
import { answering } from "../use/answering";
import {
  codeNamed,
  codeOption,
  codeSettingOption,
  dataOption,
  formatOption,
  levelNamed,
  levelOption,
  readingsNamed,
  settingsFor,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { oneOf, positiveNumber, WrongUse } from "../use/wrong-use";
import { lengthTraces, lengthAnswer } from "./length-answers";
import { listedOnce, printed, placingList } from "./print-explanation";

const FORMATS = ["text", "markdown", "html", "latex", "json"] as const;

interface ExplainOptions {
  readonly code: string;
  readonly data?: readonly string[];
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
      "the hand calculation of one test by one code: all capacities at a glance, then inputs, steps, clauses and limits of the one that governs",
    )
    .argument("<test_id>", "the test, as in tests.csv")
    .addOption(codeOption())
    .addOption(dataOption())
    .addOption(levelOption())
    .option("--clause <clause>", "only this clause, e.g. 17.6.5")
    .option(
      "--all",
      "the calculation of every capacity that applies, the governing one first",
      false,
    )
    .option(
      "--length-for <MPa>",
      "also the development length of this bar for a stress, by the codes that state one",
    )
    .addOption(formatOption(FORMATS))
    .addOption(codeSettingOption())
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison explain gfrp-nc-19.1-low-95 --code aci318-19 --data datasets/published\n  code-comparison explain IH-114-1 --code aci440.1r-15 --length-for 550\n  code-comparison explain IH-006-1 --all --format html > IH-006-1.html\n\nExit code: 0 explained, 1 no capacity applies to the test, 2 wrong use.",
    )
    .action(answering(explain));
}

async function explain(id: string, options: ExplainOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const code = codeNamed(options.code);
  const [settings = {}] = settingsFor(
    [code],
    levelNamed(options.level),
    options.option,
    readingsNamed(options),
  );
  const { tests, row: i } = await findTest(id, options.data);
  const rows = predictionRows(
    code,
    tests,
    settings,
    { everyAction: options.clause !== undefined, steps: format === "json" },
    i,
  ).filter(({ clause }) => clause === (options.clause ?? clause));
  if (rows.length === 0) throw new WrongUse(noneSays(code, options, tests, i));
  const lengths =
    options.lengthFor === undefined
      ? []
      : lengthTraces(code, tests, i, positiveNumber("length-for", options.lengthFor), settings);
  const governs = governingSentence(predict(code, tests, settings), i);
  const placing = options.clause === undefined ? placingOf(code, tests, i, settings) : [];
  if (format === "json")
    console.log(
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
        ? "The governing calculation follows; --all prints the others too, --clause the one of a clause."
        : "";
    const overview =
      options.clause === undefined
        ? [overviewTable(code, rows, id, options.level, governs, more)]
        : [];
    console.log(
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
  const stated = code.provisions.filter((provision) =>
    provision.levels.some((each) => each === level),
  );
  const clauses = stated.map((provision) => clauseOf(provision.id));
  if (clause !== undefined)
    return `--clause "${clause}" is not stated by ${code.id} at level ${level}${didYouMean(clause, clauses)}, expected one of ${clauses.join(", ") || "none"}`;
  const action = tests.texts("action")[i] ?? "an unknown action";
  const levels = [
    ...new Set(
      code.provisions.filter((each) => each.action === action).flatMap((each) => each.levels),
    ),
  ];
  return `${code.id} states nothing for ${action} at level ${level}, expected ${levels.length > 0 ? `--level ${levels.join(" or ")}` : "another code"} (it states ${[...new Set(code.provisions.flatMap((each) => each.levels))].join(", ")})`;
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
