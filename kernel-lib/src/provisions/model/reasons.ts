import { parseFormula } from "../../formula";
import { INPUTS, isInput, type InputDefinition } from "../inputs/catalogue";
import { capacityExpression, MISSING, stepsOf } from "./compile";
import type { ProvisionDefinition } from "./definition";
import { rowEvaluator } from "./evaluate-row";
import { missingInputs } from "./missing";
import { rowArguments, type CodePrediction, type ProvisionColumn } from "./predict";

/** Why a capacity is withheld, or in what way it lies outside a limit. */
export interface Reason {
  readonly kind: "missing" | "not_applicable" | "outside" | "not_stated";
  readonly clause: string;
  readonly says: string;
}

/**
 * Why the capacity of one provision is withheld or flagged for one row; empty when it applies without reserve. A limit
 * that fails comes before what else is missing: for a steel bar, a provision for FRP asks for nothing.
 * @example reasonsAt(prediction, prediction.columns[0], 12)
 */
export function reasonsAt(prediction: CodePrediction, column: ProvisionColumn, i: number): Reason[] {
  const flags = column.flags[i] ?? 0;
  if (flags === 0) return [];
  const { provision } = column;
  const failing = provision.limits.filter((_, k) => (flags & (1 << k)) !== 0);
  const reasons: Reason[] = failing.map((limit) => ({ kind: limit.effect, clause: limit.clause, says: limit.says }));
  if ((flags & MISSING) === 0 || failing.some((limit) => limit.effect === "not_applicable")) return reasons;
  for (const name of missingAt(prediction, provision, i)) {
    if (isInput(name)) reasons.push({ kind: "missing", clause: clauseOf(provision.id), says: missingSays(name, INPUTS[name], prediction, i) });
  }
  return reasons;
}

function missingAt({ code, level, specimens, settings }: CodePrediction, provision: ProvisionDefinition, i: number): Set<string> {
  const evaluator = rowEvaluator(code, provision);
  const args = rowArguments(code, evaluator, specimens, settings, i);
  const values = new Float64Array(evaluator.symbols.length + 1);
  const design = level === "design";
  evaluator.evaluate(args, values, design);
  const known = new Map([...evaluator.reads.map(({ name }, k) => [name, args[k] ?? NaN] as const), ...evaluator.symbols.map((name, k) => [name, values[k] ?? NaN] as const)]);
  const steps = new Map(stepsOf(provision).map((step) => [step.symbol, parseFormula(step.formula)]));
  const value = (name: string): number => known.get(name) ?? NaN;
  const found = missingInputs(capacityExpression(provision, design), steps, value);
  for (const limit of provision.limits) if (limit.effect === "not_applicable") missingInputs(parseFormula(limit.holds), steps, value, found);
  return found;
}

function missingSays(name: string, definition: InputDefinition, prediction: CodePrediction, i: number): string {
  const { tests } = prediction.specimens;
  if (name === "f_c" && tests.has("concrete_strength_MPa") && !Number.isNaN(tests.numbers("concrete_strength_MPa")[i] ?? NaN)) {
    return "needs the basis of concrete_strength_MPa (cylinder or which cube); it is unknown for this row";
  }
  return `needs ${definition.column ?? name} (${definition.meaning})`;
}

/** The clause of a provision id: what stands after the slash. */
export function clauseOf(id: string): string {
  return id.slice(id.indexOf("/") + 1);
}
