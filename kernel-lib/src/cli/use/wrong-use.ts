import { didYouMean } from "../../dataset";

/**
 * Wrong use of a command: the message says what was given and what was expected; the exit code is
 * 2.
 */
export class WrongUse extends Error {
  override readonly name = "WrongUse";
}

/** One of the words an option takes. @throws WrongUse naming the words there are */
export function oneOf<T extends string>(option: string, value: string, words: readonly T[]): T {
  const found = words.find((word) => word === value);
  if (found === undefined)
    throw new WrongUse(
      `--${option} "${value}" is not known${didYouMean(value, words)}, expected ${words.join(", ")}`,
    );
  return found;
}

/** A number above 0 from an option. @throws WrongUse */
export function positiveNumber(option: string, value: string): number {
  const number = Number(value);
  if (value.trim() === "" || !(number > 0 && number < Infinity))
    throw new WrongUse(`--${option} "${value}" is not usable, expected a number above 0`);
  return number;
}

/** A number of at least 0 from an option. @throws WrongUse */
export function numberFromZero(
  option: string,
  value: string,
  what: string = "a number of at least 0",
): number {
  const number = Number(value);
  if (value.trim() === "" || !(number >= 0 && number < Infinity))
    throw new WrongUse(`--${option} "${value}" is not usable, expected ${what}`);
  return number;
}

/** A whole number of at least 1 from an option. @throws WrongUse */
export function wholeNumber(option: string, value: string): number {
  if (!/^\d{1,15}$/.test(value) || Number(value) < 1)
    throw new WrongUse(
      `--${option} "${value}" is not usable, expected a whole number of at least 1`,
    );
  return Number(value);
}

/** The seed of random numbers from an option. @throws WrongUse */
export function seedNumber(option: string, value: string): number {
  if (!/^\d{1,15}$/.test(value))
    throw new WrongUse(
      `--${option} "${value}" is not usable, expected a whole number such as 2026`,
    );
  return Number(value);
}

/** A share between 0 and 1 from an option. @throws WrongUse */
export function share(option: string, value: string): number {
  const number = Number(value);
  if (value.trim() === "" || !(number > 0 && number < 1))
    throw new WrongUse(`--${option} "${value}" is not usable, expected a number between 0 and 1`);
  return number;
}

/** The names in a list with commas. @throws WrongUse when there is none */
export function names(option: string, value: string, what: string = "names"): string[] {
  const found = value
    .split(",")
    .map((name) => name.trim())
    .filter(Boolean);
  if (found.length === 0)
    throw new WrongUse(`--${option} is empty, expected ${what} with commas between`);
  return found;
}

/**
 * What a library function makes of something that the user named. The library refuses such things
 * by a plain Error whose message already says what was expected; wrap the one call that can refuse,
 * and nothing else, so that our own faults still show as such.
 */
export function asNamed<T>(make: () => T): T {
  try {
    return make();
  } catch (error) {
    throw new WrongUse((error as Error).message);
  }
}
