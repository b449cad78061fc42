import { Option } from "commander";
import type { Tests } from "../../face/tests/tests";
import { InvalidInput, invalidOption } from "./invalid-input";

/** `--set`: values for what-if rows. */
export const setOption = (): Option =>
  new Option(
    "--set <column=values>",
    "other values of a column, separated by commas, such as concrete_strength_MPa=20,60; each row is taken with every value (and combination), without load; may be repeated",
  )
    .argParser((value: string, before: readonly string[] | undefined) => [...(before ?? []), value])
    .default([], "the values of the tests");

/**
 * The rows with the values of `--set`, untested; the rows themselves where there are none.
 * @throws InvalidInput for a column that rows do not state, or a value that it does not take
 */
export function withSetValues(tests: Tests, words: readonly string[]): Tests {
  if (words.length === 0) return tests;
  const values = words.map((word): [string, (number | string)[]] => {
    const [, name = "", list = ""] = /^([^=]+)=(.+)$/.exec(word.trim()) ?? [];
    if (name === "")
      throw invalidOption("set", word, "column=values, such as concrete_strength_MPa=20,60");
    const of = list.split(",").map((one) => one.trim());
    return [name.trim(), of.map((one) => (one !== "" && Number.isFinite(+one) ? +one : one))];
  });
  try {
    return tests.set(Object.fromEntries(values));
  } catch (error) {
    throw new InvalidInput(`Invalid --set: ${(error as Error).message}`);
  }
}
