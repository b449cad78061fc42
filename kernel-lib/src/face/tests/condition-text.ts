import { testColumn } from "../../dataset";
import { parseRowCondition, type RowCondition } from "../../formula";
import { knownName } from "../results/names";

/**
 * A condition in words, as `where` and `--where` take it, checked against the columns there are: a
 * misspelt column, or a word that a column never holds, is an error and not an empty result.
 * @throws UnknownNameError for a column or a word that there is not, naming the nearest
 * @throws RangeError where a column of numbers is compared with a word or the other way round
 * @example checkedCondition("bar_material == 'gfrp'", ["bar_material"]).columns
 */
export function checkedCondition(text: string, known: readonly string[]): RowCondition {
  const parsed = parseRowCondition(text);
  for (const column of parsed.columns) knownName("column", column, known);
  for (const { column, value } of parsed.compared) {
    const stated = testColumn(column);
    if (stated === null) continue;
    const numeric = stated.kind === "number" || stated.kind === "integer";
    if (numeric !== (typeof value === "number"))
      throw new RangeError(
        `Condition "${text}": ${column} holds ${numeric ? "numbers" : "words"}, and ${JSON.stringify(value)} is ${numeric ? "a word" : "a number"}. Expected ${numeric ? "a number, without quotes" : "a word in quotes"}.`,
      );
    if (typeof value === "string" && stated.kind === "category" && stated.open !== true)
      knownName(`word of ${column}`, value, stated.categories ?? []);
  }
  return parsed;
}
