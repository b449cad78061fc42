import { foldConstants, parseFormula, symbolsOf, toFormula, type Expression } from "../formula";
import {
  readsStep,
  required,
  step,
  type CodeDefinition,
  type ProvisionDefinition,
  type Step,
} from "../provisions";
import type { Proposal, Restriction } from "./proposal";

/**
 * The equation with a factor written before its first factor: `N = A / A0 * psi * N_b` becomes
 * `N = psi_new * (A / A0) * psi * N_b`, `min(a, b)` becomes `psi_new * min(a, b)`. A factor of 1
 * changes no bit of it, since 1 x is x.
 * @example toText(withFactor("psi", parseFormula("k * N"))) // "ψ × k × N"
 */
export function withFactor(symbol: string, equation: Expression): Expression {
  if (equation.kind === "binary" && equation.operator === "*")
    return { ...equation, left: withFactor(symbol, equation.left) };
  return {
    kind: "binary",
    operator: "*",
    left: { kind: "symbol", name: symbol },
    right: equation,
  };
}

/**
 * The equation of a result of a provision, with a factor or as it stands. It is the equation that is
 * printed and the one that is evaluated. Where an option of the code chooses between two readings,
 * each is written out, so that the printed one reads no option.
 * @param symbol of the factor; none for the equation as it stands
 */
export function equationOf(
  { steps }: Pick<ProvisionDefinition, "steps">,
  result: string,
  { options }: Pick<CodeDefinition, "options">,
  symbol?: string,
): Expression {
  const formulaOf = (e: Expression): Expression =>
    e.kind === "symbol"
      ? parseFormula(steps.find((one) => one.symbol === e.name)?.formula ?? e.name)
      : e;
  const put = (e: Expression): Expression => (symbol === undefined ? e : withFactor(symbol, e));
  const equation = formulaOf({ kind: "symbol", name: result });
  if (equation.kind !== "call" || equation.name !== "if") return put(equation);
  const [condition, ...readings] = equation.args;
  if (!condition || ![...symbolsOf(condition)].every((name) => name in options))
    return put(equation);
  return { ...equation, args: [condition, ...readings.map((one) => put(formulaOf(one)))] };
}

/**
 * The equation as the edition prints it: without the choices that options of the code stand for,
 * each at its value by default.
 */
export function printedEquation(
  provision: Pick<ProvisionDefinition, "steps">,
  result: string,
  code: Pick<CodeDefinition, "options">,
  symbol?: string,
): Expression {
  const values = new Map(Object.entries(code.options).map(([name, { value }]) => [name, value]));
  return foldConstants(equationOf(provision, result, code, symbol), values);
}

/**
 * A provision with a factor in the equation of one of its results: that of its own capacity, or
 * that of another provision which it uses.
 * @param source the provision whose capacity gets the factor: steps that the condition or the factor reads and
 *   that the provision lacks are taken from it
 * @param formula value of the factor, 1 where it does not apply
 */
export function factoredProvision(
  provision: ProvisionDefinition,
  source: ProvisionDefinition,
  { symbol, says }: Proposal,
  formula: string,
  code: Pick<CodeDefinition, "options">,
): ProvisionDefinition {
  const result = source.capacity;
  const factor = step(symbol, formula, "number", "proposed", `proposed factor: ${says}`);
  const at = provision.steps.findIndex((one) => one.symbol === result);
  const changed = provision.steps[at];
  if (changed === undefined) return provision;
  const before = provision.steps.slice(0, at);
  const known = new Set(before.map((one) => one.symbol));
  const first = [...stepsMissing(source, formula, known), ...(known.has(symbol) ? [] : [factor])];
  const moved = new Set(first.map((one) => one.symbol));
  return {
    ...provision,
    steps: [
      ...before,
      ...first,
      { ...changed, formula: toFormula(equationOf(provision, result, code, symbol)) },
      ...provision.steps.slice(at + 1).filter((one) => !moved.has(one.symbol)),
    ],
  };
}

/** A provision that may not be used where a condition holds. */
export function restrictedProvision(
  target: ProvisionDefinition,
  { where, says }: Restriction,
): ProvisionDefinition {
  const limit = required("proposed", `if(${where}, 0, 1) == 1`, says);
  return { ...target, limits: [...target.limits, limit] };
}

/**
 * A provision that uses the result of one which is withdrawn: it has no value where it reads that
 * result and the other may not be used.
 */
export function withoutResult(
  provision: ProvisionDefinition,
  source: ProvisionDefinition,
  { where, says }: Restriction,
): ProvisionDefinition {
  const result = source.capacity;
  const reads = toFormula(readsStep(provision, result));
  const known = new Set(provision.steps.map((one) => one.symbol));
  return {
    ...provision,
    steps: [...stepsMissing(source, where, known), ...provision.steps],
    limits: [
      ...provision.limits,
      required(
        "proposed",
        `if(${reads}, if(${where}, 0, 1), 1) == 1`,
        `it uses ${result} of ${source.id.slice(source.id.indexOf("/") + 1)}: ${says}`,
      ),
    ],
  };
}

/** The steps of a provision that a formula rests on and that are not known, in order. */
function stepsMissing(
  source: ProvisionDefinition,
  formula: string,
  known: ReadonlySet<string>,
): Step[] {
  const needed = new Set(symbolsOf(parseFormula(formula)));
  return [...source.steps]
    .reverse()
    .filter(({ symbol, formula: own }) => {
      if (!needed.has(symbol) || known.has(symbol)) return false;
      symbolsOf(parseFormula(own), needed);
      return true;
    })
    .reverse();
}

/** Whether two formulas are the same tree, however they are written. */
export function sameFormula(a: string, b: string): boolean {
  return toFormula(parseFormula(a)) === toFormula(parseFormula(b));
}
