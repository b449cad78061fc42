import { parseFormula, symbolsOf } from "../../formula";
import { INPUTS, isInput, type InputDefinition } from "../inputs/catalogue";
import type { Limit, ProvisionDefinition } from "./definition";
import { rowEvaluator } from "./evaluate-row";
import { rowArguments, type CodePrediction } from "./predict";
import { statementOf } from "./yes-or-no";

const UNIT: Readonly<Record<string, string>> = {
  length: " mm",
  area: " mm2",
  stress: " MPa",
  force: " N",
  modulus: " MPa",
};

/**
 * The values of one row that a limit compares, in words: "embedment_mm = 64, bar_diameter_mm = 16"
 * or "l_e_ratio = 4". Columns as the table holds them, steps of the provision in N, mm and MPa;
 * options, which are the user's, are not repeated.
 */
export function limitValues(
  prediction: CodePrediction,
  provision: ProvisionDefinition,
  limit: Limit,
  i: number,
): string {
  const { code, specimens, settings } = prediction;
  const { tests } = specimens;
  const evaluator = rowEvaluator(code, provision);
  let values: Float64Array | null = null;
  const stepValue = (at: number): number => {
    if (values === null) {
      values = new Float64Array(evaluator.symbols.length + 1);
      evaluator.evaluate(rowArguments(code, evaluator, specimens, settings, i), values);
    }
    return values[at] ?? NaN;
  };
  return [...symbolsOf(parseFormula(limit.holds))]
    .flatMap((name) => {
      const at = evaluator.symbols.indexOf(name);
      if (at >= 0) {
        const quantity = provision.steps[at]?.quantity ?? "number";
        return [
          `${name} = ${shown(stepValue(at) * code.system.inSi[quantity])}${UNIT[quantity] ?? ""}`,
        ];
      }
      if (!isInput(name) || code.options[name]) return [];
      const { column, meaning }: InputDefinition = INPUTS[name];
      if (column === undefined) return [];
      if (statementOf(meaning) !== null)
        return [`${column} = ${(tests.has(column) ? tests.texts(column)[i] : null) ?? "(blank)"}`];
      return [
        `${column} = ${tests.has(column) ? shown(tests.numbers(column)[i] ?? NaN) : "(blank)"}`,
      ];
    })
    .join(", ");
}

function shown(value: number): string {
  return Number.isFinite(value)
    ? String(Number(value.toPrecision(4)))
    : Number.isNaN(value)
      ? "(blank)"
      : "remote";
}
