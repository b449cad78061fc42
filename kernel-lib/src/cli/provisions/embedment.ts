import { Option, type Command } from "commander";
import { FAILURE_MODES } from "../../dataset";
import {
  CALCULATION_CAUTION,
  embedmentForMode,
  type EmbedmentForMode,
  type EmbedmentPoint,
  type EmbedmentSettings,
  type FailureMode,
} from "../../provisions";
import { embedmentTable } from "../../tables";
import { findTest, requireOneLoad, type TestOptions } from "./find-test";
import { answering } from "../use/answering";
import { dataOption, whereOption } from "../use/chosen-rows";
import { absent, helpNotes } from "../use/help";
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
import { numberFromZero, oneOf, positiveNumber, InvalidInput } from "../use/invalid-input";
import { TABLE_FORMATS, tableText } from "./table-format";
import { say } from "../use/printing";

const FORMATS = [...TABLE_FORMATS, "json"] as const;

interface EmbedmentOptions extends TestOptions {
  readonly mode: string;
  readonly above: string;
  readonly grip?: string;
  readonly from?: string;
  readonly to?: string;
  readonly codes: string;
  readonly level: string;
  readonly beyondLimits: boolean;
  readonly format: string;
  readonly option: readonly string[];
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
}

/**
 * `code-comparison embedment <test_id> --mode <mode>`: which embedment lets a wanted mode govern.
 */
export function registerEmbedmentCommand(program: Command): void {
  program
    .command("embedment")
    .description(
      "find embedments at which the intended mode governs by a margin over every other load (other modes, rupture, yield, grip)",
    )
    .argument(
      "[test_id]",
      "the test to start from, as in tests.csv; only the embedment changes; may be omitted where --where chooses one",
    )
    .requiredOption("--mode <mode>", "intended failure mode, e.g. bond or concrete_breakout")
    .option("--above <percent>", "margin of every other load above it, %", "0")
    .addOption(
      absent(new Option("--grip <kN>", "maximum load the grip can apply"), "no limit of the grip"),
    )
    .addOption(absent(new Option("--from <mm>", "minimum embedment"), "2 bar diameters"))
    .addOption(
      absent(
        new Option("--to <mm>", "maximum embedment"),
        "30 bar diameters, no deeper than the member",
      ),
    )
    .addOption(
      codesOption(
        "codes and models whose modes are taken together, separated by commas; `provisions` lists them",
      ),
    )
    .addOption(dataOption())
    .addOption(whereOption())
    .addOption(levelOption())
    .option(
      "--beyond-limits",
      "include embedments outside a reported limit of the provision of the intended mode",
      false,
    )
    .addOption(formatOption(FORMATS))
    .addOption(codeSettingOption())
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addHelpText(
      "after",
      helpNotes({
        examples: ["embedment IH-006-1 --mode bond --above 25 --grip 90"],
        exit: "0 such an embedment exists; 1 none exists",
      }),
    )
    .action(answering(answer));
}

async function answer(named: string | undefined, options: EmbedmentOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const mode = oneOf<string>("mode", options.mode, FAILURE_MODES) as FailureMode;
  const codes = codesNamed(options.codes);
  const readings = readingsNamed(options);
  const level = levelNamed(options.level);
  const asked = settingsFor(codes, level, options.option, readings);
  const above = numberFromZero("above", options.above, "a percentage of at least 0") / 100;
  const [from, to] = (["from", "to"] as const).map((name) =>
    options[name] === undefined ? undefined : positiveNumber(name, options[name]),
  );
  if (from !== undefined && to !== undefined && from >= to)
    throw new InvalidInput(`--from ${String(from)} is not below --to ${String(to)}. Use a range.`);
  const settings: EmbedmentSettings = {
    level,
    readings,
    options: Object.assign({}, ...asked.map((each) => each.options ?? {})) as Record<
      string,
      number
    >,
    above,
    beyondLimits: options.beyondLimits,
    ...(options.grip === undefined
      ? {}
      : { gripLoad_N: 1000 * positiveNumber("grip", options.grip) }),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
  };
  const test = await findTest(named, options);
  const { tests, row, id } = test;
  requireOneLoad(test);
  const found = embedmentForMode(codes, tests, row, mode, settings);
  if (format === "json")
    say(
      JSON.stringify(
        { test_id: id, codes: codes.map((each) => each.id), level, ...asJson(found) },
        null,
        2,
      ),
    );
  else
    say(
      tableText(
        embedmentTable(found, {
          id: "embedment",
          title: `Embedment for ${mode.replaceAll("_", " ")}, specimens like ${id}, ${codes.map((each) => each.id).join(", ")}, ${level} level`,
          notes: [CALCULATION_CAUTION],
        }),
        format,
      ),
    );
  return found.intervals.length > 0 ? 0 : 1;
}

function asJson({
  mode,
  above,
  from,
  to,
  intervals,
  best,
  unjudged,
  reading,
}: EmbedmentForMode): object {
  const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
  const point = ({ embedment, wanted_N, rival, rival_N, margin }: EmbedmentPoint): object => ({
    embedment_mm: embedment,
    load_kN: finite(wanted_N / 1000),
    rival,
    rival_kN: finite(rival_N / 1000),
    margin: finite(margin),
  });
  return {
    mode,
    above,
    from_mm: from,
    to_mm: to,
    intervals: intervals.map((one) => ({
      from_mm: one.from,
      to_mm: one.to,
      from_because: one.fromBecause,
      to_because: one.toBecause,
    })),
    best: best === null ? null : point(best),
    not_judged: unjudged,
    answer: reading,
  };
}
