import {
  parseFormula,
  symbolText,
  toText,
  type BinaryOperator,
  type Expression,
} from "../../formula";
import {
  INPUTS,
  isInput,
  statementOf,
  type CodeDefinition,
  type ProvisionDefinition,
} from "../../provisions";

const COMPARED: Readonly<Partial<Record<BinaryOperator, string>>> = {
  "<": "less than",
  "<=": "at most",
  ">": "more than",
  ">=": "at least",
  "==": "equal to",
  "!=": "not equal to",
};

/**
 * A condition of a proposal in words, from the meanings of the symbols it reads: `frp == 1 && d_a
 * <= 0.75` becomes "the bar is FRP of any fiber and the bar diameter d_a is at most 0.75 in.". What
 * has no words is given as the formula.
 * @example conditionWords("gfrp == 1", code("aci318-19"), provision) // "the bar is glass FRP"
 */
export function conditionWords(
  condition: string,
  code: CodeDefinition,
  provision: ProvisionDefinition,
): string {
  return wordsOfCondition(parseFormula(condition), code, provision);
}

/** The words of a condition that has been read. */
export function wordsOfCondition(
  e: Expression,
  code: CodeDefinition,
  provision: ProvisionDefinition,
): string {
  if (e.kind !== "binary") return toText(e);
  if (e.operator === "&&" || e.operator === "||") {
    const side = (one: Expression): string => {
      const text = wordsOfCondition(one, code, provision);
      return e.operator === "&&" && one.kind === "binary" && one.operator === "||"
        ? `either ${text}`
        : text;
    };
    return `${side(e.left)} ${e.operator === "&&" ? "and" : "or"} ${side(e.right)}`;
  }
  const { left, right, operator } = e;
  const compared = COMPARED[operator];
  if (left.kind !== "symbol" || right.kind !== "number" || compared === undefined) return toText(e);
  const { meaning, unit } = symbolMeaning(left.name, code, provision);
  const flag = statementOf(meaning);
  if (flag !== null && operator === "==" && (right.value === 1 || right.value === 0))
    return right.value === 1 ? flag : `it is not so that ${flag}`;
  return `the ${meaning} ${symbolText(left.name)} is ${compared} ${right.value}${unit === "" ? "" : ` ${unit}`}`;
}

/** What a symbol of a provision means, and the unit the code writes it in. */
export function symbolMeaning(
  name: string,
  code: CodeDefinition,
  provision: ProvisionDefinition,
): { readonly meaning: string; readonly unit: string } {
  const step = provision.steps.find(({ symbol }) => symbol === name);
  if (step) return { meaning: step.meaning, unit: code.system.unit[step.quantity] };
  const option = code.options[name];
  if (option) return { meaning: option.meaning, unit: code.system.unit[option.quantity] };
  if (!isInput(name)) return { meaning: "", unit: "" };
  return { meaning: INPUTS[name].meaning, unit: code.system.unit[INPUTS[name].quantity] };
}
