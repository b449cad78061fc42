import { Option } from "commander";
import { didYouMean } from "../../dataset";
import {
  code,
  type CodeDefinition,
  type Level,
  type PredictionSettings,
  type Readings,
} from "../../provisions";
import { datasetFolders, projectRoot } from "../../face/project";
import { asNamed, names, oneOf, WrongUse } from "./wrong-use";

/**
 * Options that several commands take are declared here once, so that they read and behave alike.
 */

/** `--data`: where the tests come from. */
export const dataOption = (): Option =>
  new Option("--data <folder...>", "data set folders; all of the project when not given");

/** The folders of `--data`, or those of the project around. @throws WrongUse outside a project */
export function dataFolders(given: readonly string[] | undefined): readonly string[] {
  return given ?? asNamed(() => datasetFolders(projectRoot()));
}

/** `--code`: one code or model. */
export const codeOption = (): Option =>
  new Option("--code <id>", "the code or model; `provisions` lists them").default("aci318-19");

/** `--codes`: several codes or models. */
export const codesOption = (
  says: string = "codes and models, with commas; `provisions` lists them",
): Option => new Option("--codes <ids>", says).default("aci318-19");

/** The one code named. @throws WrongUse listing the codes there are */
export function codeNamed(id: string): CodeDefinition {
  const [found, ...more] = codesNamed(id, "code");
  if (!found || more.length > 0)
    throw new WrongUse(`--code "${id}" is not one code, expected one id`);
  return found;
}

/** The codes named, with commas between. @throws WrongUse listing the codes there are */
export function codesNamed(ids: string, option: string = "codes"): CodeDefinition[] {
  return asNamed(() => [...new Set(names(option, ids, "code ids such as aci318-19"))].map(code));
}

const LEVELS: readonly Level[] = ["expected", "nominal", "design"];

/** `--level`: which of a code's capacities. */
export const levelOption = (): Option =>
  new Option(
    "--level <level>",
    "expected (mean models), nominal (no strength reduction) or design",
  ).default("nominal");

/** The level named. @throws WrongUse */
export function levelNamed(value: string): Level {
  return oneOf("level", value, LEVELS);
}

/** `--fractile` and `--confidence` of a characteristic value. */
export const characteristicOptions = (): readonly [Option, Option] => [
  new Option("--fractile <p>", "fractile that is estimated and bounded").default("0.05"),
  new Option("--confidence <p>", "confidence of each one-sided bound").default("0.90"),
];

/** `--by`: columns to group by. */
export const byOption = (): Option =>
  new Option(
    "--by <columns>",
    "columns to group by, with commas; mode is the mode of the provision judged, failure_mode the mode observed; without mode a test counts once",
  ).default("mode,bar_material");

/** `--unknown-strength`: what a strength without a stated specimen is taken for. */
export const unknownStrengthOption = (): Option =>
  new Option(
    "--unknown-strength <reading>",
    "concrete strength whose specimen is not stated: not_predicted, or as_cylinder (taken for a cylinder strength)",
  ).default("not_predicted");

/**
 * `--uncracked-bond`: what a blank bond stress for uncracked concrete is taken for in cracked
 * concrete.
 */
export const uncrackedBondOption = (): Option =>
  new Option(
    "--uncracked-bond <reading>",
    "blank bond stress for uncracked concrete of a bar in cracked concrete: not_predicted, or as_cracked (up to some 13 % unsafe)",
  ).default("not_predicted");

/** The readings named. @throws WrongUse */
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
  new Option("--option <name=value>", "an option of the code, in mm and MPa; may be repeated")
    .argParser((value: string, before: readonly string[] | undefined) => [...(before ?? []), value])
    .default([]);

/**
 * Settings for each code from `name=value` words (lengths in mm, stresses in MPa). A code takes the
 * options it offers; one that no code offers is refused. @throws WrongUse
 */
export function settingsFor(
  codes: readonly CodeDefinition[],
  level: Level,
  words: readonly string[],
  readings: Readings,
): PredictionSettings[] {
  const options = words.map((word) => {
    const [, name = "", value = ""] = /^([^=]+)=(.+)$/.exec(word.trim()) ?? [];
    if (name === "" || !Number.isFinite(Number(value)))
      throw new WrongUse(
        `--option "${word}" cannot be read, expected name=number, e.g. supplementary_reinforcement=1`,
      );
    if (!codes.some((each) => Object.hasOwn(each.options, name))) {
      const offered = [...new Set(codes.flatMap((each) => Object.keys(each.options)))];
      throw new WrongUse(
        `--option "${name}" is offered by none of ${codes.map(({ id }) => id).join(", ")}${didYouMean(name, offered)}, expected ${offered.length === 0 ? "no option" : `one of ${offered.join(", ")}`}`,
      );
    }
    return [name, Number(value)] as const;
  });
  return codes.map((each) => ({
    level,
    readings,
    options: Object.fromEntries(options.filter(([name]) => Object.hasOwn(each.options, name))),
  }));
}

/** `--format`: how the answer is written; the first is the default. */
export const formatOption = (formats: readonly string[]): Option =>
  new Option("--format <format>", formats.join(", ").replace(/, ([^,]*)$/, " or $1")).default(
    formats[0],
  );

/** The columns of `--by`, each of which the tests must have. @throws WrongUse */
export function groupingColumns(
  by: string,
  tests: { has(column: string): boolean },
  option: string = "by",
): string[] {
  const columns = names(option, by, "columns");
  for (const column of columns) {
    const known =
      ["mode", "failure_mode", "provision", "layout"].includes(column) ||
      tests.has(column.replace(/^extra\./, ""));
    if (!known)
      throw new WrongUse(
        `--${option} "${column}" is not a column of these tests. Use mode, failure_mode, provision, layout or a column such as bar_material or bar_size`,
      );
  }
  return columns;
}

/** `--time-limit`: the longest time for one cell of a notebook. */
export const timeLimitOption = (): Option =>
  new Option("--time-limit <seconds>", "longest time for one cell").default("120");

/** `--jobs`: notebooks at the same time. */
export const jobsOption = (usual: string): Option =>
  new Option("--jobs <n>", "notebooks at the same time").default(usual);

/** `--inputs`: what the notebooks read. */
export const inputsOption = (): Option =>
  new Option(
    "--inputs <places...>",
    "files and folders that the notebooks read, whose hashes are recorded",
  ).default(["datasets"]);
