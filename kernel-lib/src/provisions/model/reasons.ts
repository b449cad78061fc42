import { parseFormula } from "../../formula";
import { INPUTS, isInput, type InputDefinition } from "../inputs/catalogue";
import { MISSING } from "./loop-plan";
import { capacityExpression, stepsOf } from "./provision-symbols";
import type { ProvisionDefinition } from "./definition";
import { rowEvaluator } from "./evaluate-row";
import { missingInputs } from "./missing";
import { rowArguments, type CodePrediction, type ProvisionColumn } from "./predict";
import { statementOf } from "./yes-or-no";

/** Why a capacity is withheld, or in what way it lies outside a limit. */
export interface Reason {
  readonly kind: "missing" | "not_applicable" | "outside" | "not_stated";
  readonly clause: string;
  readonly says: string;
}

/**
 * Why the capacity of one provision is withheld or flagged for one row; empty when it applies
 * without reserve. A limit that fails comes before what else is missing: for a steel bar, a
 * provision for FRP asks for nothing.
 * @example reasonsAt(prediction, prediction.columns[0], 12)
 */
export function reasonsAt(
  prediction: CodePrediction,
  column: ProvisionColumn,
  i: number,
): Reason[] {
  const flags = column.flags[i] ?? 0;
  if (flags === 0) return [];
  const { provision } = column;
  const failing = provision.limits.filter((_, k) => (flags & (1 << k)) !== 0);
  const reasons: Reason[] = failing.map((limit) => ({
    kind: limit.effect,
    clause: limit.clause,
    says: limit.says,
  }));
  if ((flags & MISSING) === 0 || failing.some((limit) => limit.effect === "not_applicable"))
    return reasons;
  for (const name of missingAt(prediction, provision, i)) {
    const option = prediction.code.options[name];
    if (option)
      reasons.push({
        kind: "missing",
        clause: option.clause,
        says: `needs option ${name} (${option.meaning})`,
      });
    else if (isInput(name))
      reasons.push({
        kind: "missing",
        clause: clauseOf(provision.id),
        says: missingSays(name, INPUTS[name], prediction, i),
      });
  }
  return reasons;
}

/**
 * The inputs that keep a provision from being evaluated for one row, in the branches that the row
 * takes.
 */
export function missingAt(
  prediction: CodePrediction,
  provision: ProvisionDefinition,
  i: number,
): Set<string> {
  return missingFinder(prediction, provision)(i);
}

/** The same for many rows: everything that does not depend on the row is made once. */
export function missingFinder(
  { code, level, specimens, settings }: CodePrediction,
  provision: ProvisionDefinition,
): (i: number) => Set<string> {
  const design = level === "design";
  const evaluator = rowEvaluator(code, provision);
  const values = new Float64Array(evaluator.symbols.length + 1);
  const steps = new Map(
    stepsOf(provision).map((step) => [step.symbol, parseFormula(step.formula)]),
  );
  const asked = [
    capacityExpression(provision, design),
    ...provision.limits
      .filter(({ effect }) => effect === "not_applicable")
      .map(({ holds }) => parseFormula(holds)),
  ];
  const place = new Map([
    ...evaluator.reads.map(({ name }, k) => [name, k] as const),
    ...evaluator.symbols.map((name, k) => [name, evaluator.reads.length + k] as const),
  ]);
  return (i) => {
    const args = rowArguments(code, evaluator, specimens, settings, i);
    evaluator.evaluate(args, values, design);
    const value = (name: string): number => {
      const at = place.get(name) ?? -1;
      return at < 0 ? NaN : ((at < args.length ? args[at] : values[at - args.length]) ?? NaN);
    };
    const found = new Set<string>();
    for (const expression of asked) missingInputs(expression, steps, value, found);
    return found;
  };
}

function missingSays(
  name: string,
  definition: InputDefinition,
  prediction: CodePrediction,
  i: number,
): string {
  const { tests } = prediction.specimens;
  if (
    name === "f_c" &&
    tests.has("concrete_strength_MPa") &&
    !Number.isNaN(tests.numbers("concrete_strength_MPa")[i] ?? NaN)
  ) {
    return "needs the basis of concrete_strength_MPa (cylinder or which cube); it is unknown for this row";
  }
  const statement = statementOf(definition.meaning);
  return `needs ${definition.column ?? name} (${statement === null ? definition.meaning : `a statement whether ${statement}`})`;
}

/** The clause of a provision id: what stands after the slash. */
export function clauseOf(id: string): string {
  return id.slice(id.indexOf("/") + 1);
}
