import type { Command } from "commander";
import { DatasetError, FAILURE_MODES } from "../../dataset";
import { CALCULATION_CAUTION, embedmentForMode, type EmbedmentForMode, type EmbedmentPoint, type EmbedmentSettings, type FailureMode } from "../../provisions";
import { embedmentTable } from "../../tables";
import { findTest } from "./find-test";
import { codesNamed, levelNamed, oneOf, repeated, settingsFor, WrongUse } from "./prediction-settings";
import { positiveNumber, TABLE_FORMATS, tableText } from "./table-format";

interface EmbedmentOptions {
  readonly mode: string;
  readonly above: string;
  readonly grip?: string;
  readonly from?: string;
  readonly to?: string;
  readonly codes: string;
  readonly data?: readonly string[];
  readonly level: string;
  readonly beyondLimits: boolean;
  readonly format: string;
  readonly option: readonly string[];
  readonly unknownStrength: string;
}

/** `code-comparison embedment <test_id> --mode <mode>`: which embedment lets a wanted mode govern. */
export function registerEmbedmentCommand(program: Command): void {
  program
    .command("embedment")
    .description("which embedments let a specimen like this test fail in the mode wanted, with every other load (other modes, rupture, yield, the grip's limit) at least so far above")
    .argument("<test_id>", "the test to start from, as in tests.csv; all but the embedment stays as it is")
    .requiredOption("--mode <mode>", "the failure mode wanted, e.g. bond or concrete_breakout")
    .option("--above <percent>", "how far every other load must lie above it, per cent", "0")
    .option("--grip <kN>", "load that the grip can bring on the bar")
    .option("--from <mm>", "least embedment looked at; without it 2 bar diameters")
    .option("--to <mm>", "largest embedment looked at; without it 30 bar diameters, no deeper than the member")
    .option("--codes <ids>", "codes and models whose modes are taken together, with commas", "aci318-19")
    .option("--data <folder...>", "data set folders to look in; without it those of the project")
    .option("--level <level>", "expected, nominal or design; mean models state expected", "nominal")
    .option("--beyond-limits", "count embedments beyond a limit that the wanted mode's provision reports", false)
    .option("--format <format>", [...TABLE_FORMATS, "json"].join(", "), "text")
    .option("--option <name=value>", "an option of a code, in mm and MPa; may be repeated", repeated, [])
    .option("--unknown-strength <reading>", "strength of unknown basis: not_predicted or as_cylinder", "not_predicted")
    .addHelpText("after", "\nExample:\n  code-comparison embedment IH-006-1 --mode bond --above 25 --grip 90\n\nExit code: 0 there is such an embedment, 1 there is none, 2 wrong use.")
    .action(async (id: string, options: EmbedmentOptions) => {
      process.exitCode = await answer(id, options);
    });
}

async function answer(id: string, options: EmbedmentOptions): Promise<number> {
  try {
    const format = oneOf("format", options.format, [...TABLE_FORMATS, "json"]);
    const mode = oneOf<string>("mode", options.mode, FAILURE_MODES) as FailureMode;
    const codes = codesNamed(options.codes);
    const unknownStrengthBasis = oneOf("unknown-strength", options.unknownStrength, ["not_predicted", "as_cylinder"]);
    const level = levelNamed(options.level);
    const asked = settingsFor(codes, level, options.option, { unknownStrengthBasis });
    const above = Number(options.above) / 100;
    if (!(above >= 0 && above < Infinity)) throw new WrongUse(`--above "${options.above}" is not usable, expected per cent, 0 or more`);
    const [from, to] = (["from", "to"] as const).map((name) => (options[name] === undefined ? undefined : positiveNumber(name, options[name])));
    if (from !== undefined && to !== undefined && from >= to) throw new WrongUse(`--from ${String(from)} is not below --to ${String(to)}, expected a range`);
    const settings: EmbedmentSettings = {
      level, readings: { unknownStrengthBasis }, options: Object.assign({}, ...asked.map((each) => each.options ?? {})) as Record<string, number>, above, beyondLimits: options.beyondLimits,
      ...(options.grip === undefined ? {} : { gripLoad_N: 1000 * positiveNumber("grip", options.grip) }), ...(from === undefined ? {} : { from }), ...(to === undefined ? {} : { to }),
    };
    const { tests, row } = await findTest(id, options.data);
    const found = embedmentForMode(codes, tests, row, mode, settings);
    if (format === "json") console.log(JSON.stringify({ test_id: id, codes: codes.map((each) => each.id), level, ...asJson(found) }, null, 2));
    else console.log(tableText(embedmentTable(found, { id: "embedment", title: `Embedment for ${mode.replaceAll("_", " ")}, specimens like ${id}, ${codes.map((each) => each.id).join(", ")}, ${level} level`, notes: [CALCULATION_CAUTION] }), format));
    return found.intervals.length > 0 ? 0 : 1;
  } catch (error) {
    if (!(error instanceof WrongUse) && !(error instanceof DatasetError)) throw error;
    console.error(error.message);
    return 2;
  }
}

function asJson({ mode, above, from, to, intervals, best, unjudged, reading }: EmbedmentForMode): object {
  const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
  const point = ({ embedment, wanted_N, rival, rival_N, margin }: EmbedmentPoint): object => ({ embedment_mm: embedment, load_kN: finite(wanted_N / 1000), rival, rival_kN: finite(rival_N / 1000), margin: finite(margin) });
  return {
    mode, above, from_mm: from, to_mm: to, intervals: intervals.map((one) => ({ from_mm: one.from, to_mm: one.to, from_because: one.fromBecause, to_because: one.toBecause })),
    best: best === null ? null : point(best), unjudged, reading,
  };
}
