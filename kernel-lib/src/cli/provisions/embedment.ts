import type { Command } from "commander";
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
import { findTest, requireOneLoad } from "./find-test";
import { answering } from "../use/answering";
import {
  codeSettingOption,
  codesNamed,
  codesOption,
  dataOption,
  formatOption,
  levelNamed,
  levelOption,
  readingsNamed,
  settingsFor,
  uncrackedBondOption,
  unknownStrengthOption,
} from "../use/option-declarations";
import { numberFromZero, oneOf, positiveNumber, WrongUse } from "../use/wrong-use";
import { TABLE_FORMATS, tableText } from "./table-format";

const FORMATS = [...TABLE_FORMATS, "json"] as const;

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
  readonly uncrackedBond: string;
}

/**
 * `code-comparison embedment <test_id> --mode <mode>`: which embedment lets a wanted mode govern.
 */
export function registerEmbedmentCommand(program: Command): void {
  program
    .command("embedment")
    .description(
      "which embedments let a specimen like this test fail in the mode wanted, with every other load (other modes, rupture, yield, the grip's limit) at least so far above",
    )
    .argument(
      "<test_id>",
      "the test to start from, as in tests.csv; all but the embedment stays as it is",
    )
    .requiredOption("--mode <mode>", "the failure mode wanted, e.g. bond or concrete_breakout")
    .option("--above <percent>", "how far every other load must lie above it, per cent", "0")
    .option("--grip <kN>", "load that the grip can bring on the bar")
    .option("--from <mm>", "least embedment looked at; without it 2 bar diameters")
    .option(
      "--to <mm>",
      "largest embedment looked at; without it 30 bar diameters, no deeper than the member",
    )
    .addOption(
      codesOption(
        "codes and models whose modes are taken together, with commas; `provisions` lists them",
      ),
    )
    .addOption(dataOption())
    .addOption(levelOption())
    .option(
      "--beyond-limits",
      "count embedments beyond a limit that the wanted mode's provision reports",
      false,
    )
    .addOption(formatOption(FORMATS))
    .addOption(codeSettingOption())
    .addOption(unknownStrengthOption())
    .addOption(uncrackedBondOption())
    .addHelpText(
      "after",
      "\nExample:\n  code-comparison embedment IH-006-1 --mode bond --above 25 --grip 90\n\nExit code: 0 there is such an embedment, 1 there is none, 2 wrong use.",
    )
    .action(answering(answer));
}

async function answer(id: string, options: EmbedmentOptions): Promise<number> {
  const format = oneOf("format", options.format, FORMATS);
  const mode = oneOf<string>("mode", options.mode, FAILURE_MODES) as FailureMode;
  const codes = codesNamed(options.codes);
  const readings = readingsNamed(options);
  const level = levelNamed(options.level);
  const asked = settingsFor(codes, level, options.option, readings);
  const above = numberFromZero("above", options.above, "per cent, 0 or more") / 100;
  const [from, to] = (["from", "to"] as const).map((name) =>
    options[name] === undefined ? undefined : positiveNumber(name, options[name]),
  );
  if (from !== undefined && to !== undefined && from >= to)
    throw new WrongUse(`--from ${String(from)} is not below --to ${String(to)}, expected a range`);
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
  const { tests, row } = await findTest(id, options.data);
  requireOneLoad(tests, row, id);
  const found = embedmentForMode(codes, tests, row, mode, settings);
  if (format === "json")
    console.log(
      JSON.stringify(
        { test_id: id, codes: codes.map((each) => each.id), level, ...asJson(found) },
        null,
        2,
      ),
    );
  else
    console.log(
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
    unjudged,
    reading,
  };
}
