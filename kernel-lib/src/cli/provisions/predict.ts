import { stat } from "node:fs/promises";
import type { Command } from "commander";
import {
  neutralCsvText,
  diagnosticReport,
  readDatasets,
  readTests,
  type Dataset,
  type TestTable,
} from "../../dataset";
import {
  CALCULATION_CAUTION,
  interactionTrace,
  predict,
  trace,
  handCalculationText,
  writtenNumber,
  type CodeDefinition,
  type PredictionSettings,
} from "../../provisions";
import { predictionRows, type PredictionRow } from "../../provisions/printing/prediction-rows";
import { answering } from "../use/answering";
import { dataFolders, rowsWhere, whereOption } from "../use/chosen-rows";
import { helpNotes } from "../use/help";
import { setOption, withSetValues } from "../use/set-values";
import {
  codeSettingOption,
  codesNamed,
  codesOption,
  formatOption,
  levelNamed,
  levelOption,
  readingsNamed,
  settingsFor,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { brokenLine } from "../../formula";
import { terminalWidth } from "../use/terminal-width";
import { oneOf } from "../use/invalid-input";
import { say, tell } from "../use/printing";
import { compactPredictions, loadsOf } from "./compact-predictions";

const FORMATS = ["text", "json", "csv"] as const;

/** Characters in front of a capacity: whether it governs. */
const LABEL = 11;

interface PredictOptions {
  readonly where?: string;
  readonly codes: string;
  readonly level: string;
  readonly format: string;
  readonly trace: boolean;
  readonly all: boolean;
  readonly set: readonly string[];
  readonly option: readonly string[];
  readonly action: string;
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
}

/** `code-comparison predict <tests.csv>`: the capacities of every test by the codes named. */
export function registerPredictCommand(program: Command): void {
  program
    .command("predict")
    .description("predict capacities of every test; state why provisions do not apply")
    .argument("<tests.csv>", "tests file, data set folder or study")
    .addOption(whereOption())
    .addOption(codesOption())
    .addOption(levelOption())
    .addOption(formatOption(FORMATS))
    .option("--all", "every capacity of each test with its reasons, not the governing one", false)
    .addOption(setOption())
    .option("--trace", "include every step of the hand calculation (text and json)", false)
    .addOption(codeSettingOption())
    .option(
      "--action <which>",
      "own (capacities of the test's own action) or every (also of the other)",
      "own",
    )
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addHelpText(
      "after",
      helpNotes({
        examples: [
          "predict datasets/demo/tests.csv --codes aci318-19,aci440.1r-15 --format csv",
          "predict datasets/demo --where \"test_id == 'IH-006-1'\" --trace",
          "predict datasets/demo --where \"test_id == 'IH-006-1'\" --set concrete_strength_MPa=20,60",
        ],
        exit: "0 predicted; 1 some rows were rejected, or there are none",
      }),
    )
    .action(answering(runPredict));
}

async function runPredict(given: string, options: PredictOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const level = levelNamed(options.level);
  const choices = {
    everyAction: oneOf("action", options.action, ["own", "every"]) === "every",
    steps: options.trace && format === "json",
  };
  const codes = codesNamed(options.codes);
  const settings = settingsFor(codes, level, options.option, readingsNamed(options));
  const reading = await readPlace(given);
  const whatIf = options.set.length > 0;
  const tests =
    options.where === undefined && !whatIf
      ? reading.tests
      : withSetValues(rowsWhere(reading, options.where), options.set).chosen.table;
  const rows = codes.flatMap((code, k) => predictionRows(code, tests, settings[k] ?? {}, choices));
  if (format === "json") say(JSON.stringify(rows, null, 2));
  else if (format === "csv") say(csvOf(tests, rows, whatIf).trimEnd());
  else if (options.trace || options.all) printText(tests, codes, settings, rows, options.trace);
  else {
    const title = `Governing capacity of each test by ${codes.map(({ id }) => id).join(", ")}, ${level} level`;
    say(compactPredictions(tests, rows, title, whatIf).toText(terminalWidth()));
    say(`\n${brokenLine(CALCULATION_CAUTION, terminalWidth(), 0)}`);
  }
  const errors = reading.diagnostics.filter(({ severity }) => severity === "error");
  if (errors.length > 0)
    tell(
      `${String(reading.rejected.length)} rows rejected, not predicted:\n${diagnosticReport(errors)}`,
    );
  return errors.length > 0 || tests.length === 0 ? 1 : 0;
}

/** The tests of a file or of a data set folder. */
async function readPlace(
  place: string,
): Promise<Pick<Dataset, "tests" | "studies" | "diagnostics" | "rejected">> {
  const folder = (await stat(place).catch(() => null))?.isDirectory() ?? false;
  return folder ? readDatasets(dataFolders([place])) : { ...(await readTests(place)), studies: [] };
}

function csvOf(tests: TestTable, rows: readonly PredictionRow[], whatIf: boolean): string {
  const loadOf = loadsOf(tests);
  const header = [
    "test_id",
    "code",
    "clause",
    "mode",
    "level",
    "capacity_kN",
    "applies",
    "governs",
    "reasons",
    "rests_on",
    "load_kN",
    "ratio",
  ];
  return neutralCsvText(
    header,
    rows.map((row) => [
      row.test_id,
      row.code,
      row.clause,
      row.mode,
      row.level,
      row.capacity_kN,
      row.applies ? "yes" : "no",
      row.governs ? "yes" : "no",
      row.reasons.join("; "),
      row.rests_on.join("; "),
      ...(whatIf ? [null, null] : [loadOf(row).load_kN, loadOf(row).ratio]),
    ]),
  );
}

function printText(
  tests: TestTable,
  codes: readonly CodeDefinition[],
  settings: readonly PredictionSettings[],
  rows: readonly PredictionRow[],
  traced: boolean,
): void {
  const loads = tests.numbers("peak_load_kN");
  const rowsOf = new Map<string, PredictionRow[]>();
  for (const row of rows)
    rowsOf.set(`${row.code} ${row.test_id}`, [
      ...(rowsOf.get(`${row.code} ${row.test_id}`) ?? []),
      row,
    ]);
  tests.texts("test_id").forEach((id, i) => {
    say(
      `${id ?? ""}: ${tests.texts("failure_mode")[i] ?? ""}, peak load ${writtenNumber(loads[i] ?? NaN)} kN`,
    );
    codes.forEach((code, k) => {
      for (const row of rowsOf.get(`${code.id} ${id ?? ""}`) ?? []) {
        const capacity =
          row.capacity_kN === null ? "does not apply" : `${writtenNumber(row.capacity_kN)} kN`;
        const notes = `${row.reasons.length > 0 ? ` (${row.reasons.join("; ")})` : ""}${row.rests_on.length > 0 ? ` [${row.rests_on.join("; ")}]` : ""}`;
        const line = `  ${row.governs ? "governs" : "       "}  ${row.code} ${row.clause}, ${row.mode}: ${capacity}${notes}`;
        say(line.slice(0, LABEL) + brokenLine(line.slice(LABEL), terminalWidth() - LABEL, LABEL));
        const provision = code.provisions.find((each) => each.id.endsWith(`/${row.clause}`));
        if (traced && provision && row.applies)
          say(
            `\n${handCalculationText(trace(code, provision, tests, i, settings[k] ?? {}), { test: row.test_id })}\n`,
          );
        const joint =
          traced && row.mode === "interaction" && row.applies
            ? interactionTrace(predict(code, tests, settings[k] ?? {}), i)
            : null;
        if (joint !== null) say(`\n${handCalculationText(joint, { test: row.test_id })}\n`);
      }
    });
  });
  say(`\n${brokenLine(CALCULATION_CAUTION, terminalWidth(), 0)}`);
}
