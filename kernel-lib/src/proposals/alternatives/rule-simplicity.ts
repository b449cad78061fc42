import { operands, parseFormula, toText, type Expression } from "../../formula";
import type { ProposedChange } from "../proposal";

/** What a designer has to find to use a rule. */
export interface RuleSimplicity {
  /**
   * Numbers that the factors print, 1 not counted, each once a symbol: one factor used in four
   * places is one number.
   */
  readonly numbers: number;
  /** Different conditions to be checked, over all proposals. */
  readonly conditions: number;
  readonly lookUps: number;
}

/**
 * Simplicity of proposals together: the numbers their factors print and the different comparisons
 * in their conditions (those inside a factor's `if` counted too). A number of an added provision
 * counts as one of a factor.
 * @example
 * ruleSimplicity([{ ...proposal, where: "frp == 1", factor: "0.8" }]) // 1 number, 1 condition
 */
export function ruleSimplicity(proposals: readonly ProposedChange[]): RuleSimplicity {
  const conditions = new Set<string>();
  const numbers = new Set<string>();
  for (const one of proposals) {
    const isAddition = "kind" in one && one.kind === "addition";
    const formulas = isAddition
      ? one.provision.steps.map(({ formula }) => formula)
      : "factor" in one
        ? [one.factor]
        : [];
    const printed = new Set<number>();
    for (const formula of formulas) collect(parseFormula(formula), printed, conditions);
    const symbol = isAddition ? one.provision.id : "symbol" in one ? one.symbol : "";
    for (const value of printed) numbers.add(`${symbol} ${value}`);
    // The numbers of a condition belong to it and are not counted again.
    if ("where" in one) collect(parseFormula(one.where), new Set(), conditions);
  }
  return {
    numbers: numbers.size,
    conditions: conditions.size,
    lookUps: numbers.size + conditions.size,
  };
}

const COMPARISONS = new Set(["<", "<=", ">", ">=", "==", "!="]);

function collect(e: Expression, numbers: Set<number>, conditions: Set<string>): void {
  if (e.kind === "number" && e.value !== 1) numbers.add(e.value);
  if (e.kind === "binary" && COMPARISONS.has(e.operator)) conditions.add(toText(e));
  else for (const operand of operands(e)) collect(operand, numbers, conditions);
}
