import { didYouMean } from "../../dataset";

/**
 * An option or input that cannot be used: the message gives the value and what to use instead; the
 * exit code is 2.
 */
export class InvalidInput extends Error {
  override readonly name = "InvalidInput";
}

/** The error of an option's value. @param use what to give instead, without a full stop */
export function invalidOption(
  option: string,
  value: string,
  use: string,
  nearest: readonly string[] = [],
): InvalidInput {
  return new InvalidInput(
    `Invalid --${option} "${value}"${didYouMean(value, nearest)}. Use ${use}.`,
  );
}

/** Words with commas and a last "or". @example listed(["a", "b", "c"]) // "a, b or c" */
export function listed(words: readonly string[]): string {
  return words.length < 2
    ? words.join("")
    : `${words.slice(0, -1).join(", ")} or ${words[words.length - 1] ?? ""}`;
}

/** One of the words an option takes. @throws InvalidInput listing the words */
export function oneOf<T extends string>(option: string, value: string, words: readonly T[]): T {
  const found = words.find((word) => word === value);
  if (found === undefined) throw invalidOption(option, value, listed(words), words);
  return found;
}

/** A number above 0 from an option. @throws InvalidInput */
export function positiveNumber(option: string, value: string): number {
  return numberThat(option, value, "a number above 0", (number) => number > 0);
}

/** A number of at least 0 from an option. @throws InvalidInput */
export function numberFromZero(
  option: string,
  value: string,
  what: string = "a number of at least 0",
): number {
  return numberThat(option, value, what, (number) => number >= 0);
}

/** A share between 0 and 1 from an option. @throws InvalidInput */
export function share(option: string, value: string): number {
  return numberThat(option, value, "a number between 0 and 1", (p) => p > 0 && p < 1);
}

/** A whole number of at least 1 from an option. @throws InvalidInput */
export function wholeNumber(option: string, value: string): number {
  if (!/^\d{1,15}$/.test(value) || Number(value) < 1)
    throw invalidOption(option, value, "a whole number of at least 1");
  return Number(value);
}

/** The seed of random numbers from an option. @throws InvalidInput */
export function seedNumber(option: string, value: string): number {
  if (!/^\d{1,15}$/.test(value)) throw invalidOption(option, value, "a whole number such as 2026");
  return Number(value);
}

function numberThat(
  option: string,
  value: string,
  what: string,
  fits: (number: number) => boolean,
): number {
  const number = Number(value);
  if (value.trim() === "" || !Number.isFinite(number) || !fits(number))
    throw invalidOption(option, value, what);
  return number;
}

/** The names in a list with commas. @throws InvalidInput when there is none */
export function names(option: string, value: string, what: string = "names"): string[] {
  const found = value
    .split(",")
    .map((name) => name.trim())
    .filter(Boolean);
  if (found.length === 0) throw invalidOption(option, value, `${what} separated by commas`);
  return found;
}

/**
 * What a library function makes of something that the user named. The library refuses such things
 * by a plain Error whose message already says what was expected; wrap the one call that can refuse,
 * and nothing else, so that our own errors still show as such.
 */
export function asNamed<T>(make: () => T): T {
  try {
    return make();
  } catch (error) {
    throw new InvalidInput((error as Error).message);
  }
}
