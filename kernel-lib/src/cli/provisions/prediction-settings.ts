import { didYouMean } from "../../dataset";
import { code, type CodeDefinition, type Level, type PredictionSettings, type Readings } from "../../provisions";

/** Wrong use of a command: the message says what was expected; the exit code is 2. */
export class WrongUse extends Error {}

const LEVELS: readonly string[] = ["expected", "nominal", "design"];

/** Collects a repeatable option. */
export function repeated(value: string, before: readonly string[]): string[] {
  return [...before, value];
}

/** One of the words an option takes. @throws WrongUse naming the words there are */
export function oneOf<T extends string>(option: string, value: string, words: readonly T[]): T {
  if (!(words as readonly string[]).includes(value)) throw new WrongUse(`--${option} "${value}" is not known${didYouMean(value, words)}, expected ${words.join(", ")}`);
  return value as T;
}

/** The level named. @throws WrongUse */
export function levelNamed(value: string): Level {
  return oneOf("level", value, LEVELS as readonly Level[]);
}

/** The codes named, with commas between. @throws WrongUse listing the codes there are */
export function codesNamed(names: string): CodeDefinition[] {
  const ids = names.split(",").map((name) => name.trim()).filter(Boolean);
  if (ids.length === 0) throw new WrongUse("--codes is empty, expected code ids with commas, e.g. aci318-19,en1992-4-2018");
  try {
    return [...new Set(ids)].map(code);
  } catch (error) {
    throw new WrongUse((error as Error).message);
  }
}

/**
 * Settings for each code from `name=value` words (lengths in mm, stresses in MPa). A code takes the options it offers;
 * one that no code offers is refused.
 */
export function settingsFor(codes: readonly CodeDefinition[], level: Level, words: readonly string[], readings: Readings): PredictionSettings[] {
  const options = words.map((word) => {
    const [, name = "", value = ""] = /^([^=]+)=(.+)$/.exec(word.trim()) ?? [];
    if (name === "" || !Number.isFinite(Number(value))) throw new WrongUse(`--option "${word}" cannot be read, expected name=number, e.g. supplementary_reinforcement=1`);
    if (!codes.some((each) => Object.hasOwn(each.options, name))) {
      const offered = [...new Set(codes.flatMap((each) => Object.keys(each.options)))];
      throw new WrongUse(`--option "${name}" is offered by none of ${codes.map(({ id }) => id).join(", ")}${didYouMean(name, offered)}, expected ${offered.length === 0 ? "no option" : `one of ${offered.join(", ")}`}`);
    }
    return [name, Number(value)] as const;
  });
  return codes.map((each) => ({ level, readings, options: Object.fromEntries(options.filter(([name]) => Object.hasOwn(each.options, name))) }));
}
