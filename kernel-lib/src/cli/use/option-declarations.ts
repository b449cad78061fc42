import { Option } from "commander";
import { didYouMean } from "../../dataset";
import {
  code,
  CODES,
  type CodeDefinition,
  type Level,
  type PredictionSettings,
  type Readings,
} from "../../provisions";
import { absent } from "./help";
import { InvalidInput, invalidOption, listed, names, oneOf } from "./invalid-input";

/**
 * Options that several commands take are declared here once, so that they read and behave alike.
 */

/** `--codes`: several codes or models. */
export const codesOption = (
  says: string = "codes and models, separated by commas; `provisions` lists them",
): Option => new Option("--codes <ids>", says).default("aci318-19");

/** `--codes` of a command that answers by one code: the same word, one id. */
export const oneCodeOption = (): Option =>
  codesOption("one code or model; `provisions` lists them");

/** The one code named. @throws InvalidInput listing the codes there are */
export function codeNamed(ids: string): CodeDefinition {
  const [found, ...more] = codesNamed(ids);
  if (!found || more.length > 0) throw invalidOption("codes", ids, "one code, such as aci318-19");
  return found;
}

/** The codes named, with commas between. @throws InvalidInput listing the codes there are */
export function codesNamed(ids: string): CodeDefinition[] {
  const known = CODES.map(({ id }) => id);
  return [...new Set(names("codes", ids, "codes such as aci318-19"))].map((id) =>
    code(oneOf("codes", id, known)),
  );
}

const LEVELS: readonly Level[] = ["expected", "nominal", "design"];

/** `--level`: which of a code's capacities. */
export const levelOption = (): Option =>
  new Option(
    "--level <level>",
    "expected (mean models), nominal (no strength reduction) or design",
  ).default("nominal");

/** The level named. @throws InvalidInput */
export function levelNamed(value: string): Level {
  return oneOf("level", value, LEVELS);
}

/** `--fractile` and `--confidence` of a characteristic value. */
export const characteristicOptions = (): readonly [Option, Option] => [
  new Option("--fractile <p>", "fractile to estimate").default("0.05"),
  new Option("--confidence <p>", "confidence of each one-sided bound of the fractile").default(
    "0.90",
  ),
];

/** `--unknown-strength`: how a strength without a stated specimen is treated. */
export const unknownStrengthOption = (): Option =>
  new Option(
    "--unknown-strength <word>",
    "concrete strength if the specimen type is unknown: not_predicted, or as_cylinder",
  ).default("not_predicted");

/** `--uncracked-bond`: how a blank bond stress for uncracked concrete is treated in cracked. */
export const uncrackedBondOption = (): Option =>
  new Option(
    "--uncracked-bond <word>",
    "bar in cracked concrete if the bond stress in uncracked concrete is blank: not_predicted, or as_cracked (up to some 13 % unsafe)",
  ).default("not_predicted");

/** The treatments named. @throws InvalidInput */
export function readingsNamed({
  unknownStrength,
  uncrackedBond,
}: {
  readonly unknownStrength: string;
  readonly uncrackedBond: string;
}): Readings {
  return {
    unknownStrengthBasis: oneOf("unknown-strength", unknownStrength, [
      "not_predicted",
      "as_cylinder",
    ]),
    blankUncrackedBond: oneOf("uncracked-bond", uncrackedBond, ["not_predicted", "as_cracked"]),
  };
}

/** `--option name=value`: an option of a code, repeatable. */
export const codeSettingOption = (): Option =>
  new Option(
    "--option <name=value>",
    "an option of the code, in mm and MPa; may be repeated; `provisions --format cards` lists them",
  )
    .argParser((value: string, before: readonly string[] | undefined) => [...(before ?? []), value])
    .default([], "the values on the code's card");

/**
 * Options for each code from `name=value` words (lengths in mm, stresses in MPa). A code takes the
 * options it offers. @throws InvalidInput for one that no code offers, naming the nearest
 */
export function optionsFor(
  codes: readonly CodeDefinition[],
  words: readonly string[],
): Record<string, number>[] {
  const options = words.map((word) => {
    const [, name = "", value = ""] = /^([^=]+)=(.+)$/.exec(word.trim()) ?? [];
    if (name === "" || !Number.isFinite(Number(value)))
      throw invalidOption("option", word, "name=number, such as supplementary_reinforcement=1");
    if (!codes.some((each) => Object.hasOwn(each.options, name))) {
      const offered = [...new Set(codes.flatMap((each) => Object.keys(each.options)))];
      const ids = codes.map(({ id }) => id).join(", ");
      throw new InvalidInput(
        `Invalid --option "${name}"${didYouMean(name, offered)}. ${offered.length === 0 ? `No options are offered by ${ids}.` : `Use an option offered by ${ids}: ${offered.join(", ")}.`}`,
      );
    }
    return [name, Number(value)] as const;
  });
  return codes.map((each) =>
    Object.fromEntries(options.filter(([name]) => Object.hasOwn(each.options, name))),
  );
}

/** Settings for each code from `name=value` words. @throws InvalidInput as `optionsFor` */
export function settingsFor(
  codes: readonly CodeDefinition[],
  level: Level,
  words: readonly string[],
  readings: Readings,
): PredictionSettings[] {
  return optionsFor(codes, words).map((options) => ({ level, readings, options }));
}

/** `--format`: how the answer is written; the first is the default. */
export const formatOption = (formats: readonly [string, ...string[]]): Option =>
  new Option("--format <format>", listed(formats)).default(formats[0]);

/** `--time-limit`: the longest time for one cell of a notebook. */
export const timeLimitOption = (): Option =>
  new Option("--time-limit <seconds>", "time limit for one cell").default("120");

/** `--jobs`: notebooks at the same time. */
export const jobsOption = (usual: string): Option =>
  new Option("--jobs <n>", "notebooks to run at the same time").default(usual);

/** `--inputs`: what the notebooks read. */
export const inputsOption = (): Option =>
  absent(
    new Option(
      "--inputs <places...>",
      "files and folders that the notebooks read; their hashes are recorded",
    ),
    "the data and settings of the study",
  );
