import { INPUTS, isInput, type InputDefinition } from "../inputs/catalogue";
import { MISSING, symbolsRead } from "./compile";
import type { CodePrediction, ProvisionColumn } from "./predict";

/** Why a capacity is withheld, or in what way it lies outside a limit. */
export interface Reason {
  readonly kind: "missing" | "not_applicable" | "outside" | "not_stated";
  readonly clause: string;
  readonly says: string;
}

/**
 * Why the capacity of one provision is withheld or flagged for one row; empty when it applies without reserve.
 * @example reasonsAt(prediction, prediction.columns[0], 12)
 */
export function reasonsAt(prediction: CodePrediction, column: ProvisionColumn, i: number): Reason[] {
  const flags = column.flags[i] ?? 0;
  const { provision } = column;
  const reasons: Reason[] = [];
  if ((flags & MISSING) !== 0) {
    for (const read of symbolsRead(prediction.code, provision)) {
      if (!isInput(read.name) || !Number.isNaN(prediction.specimens.value(read.name, i))) continue;
      const definition: InputDefinition = INPUTS[read.name];
      reasons.push({ kind: "missing", clause: clauseOf(provision.id), says: missingSays(read.name, definition, prediction, i) });
    }
  }
  provision.limits.forEach((limit, k) => {
    // A limit over a missing value cannot hold; the missing value is the reason to report.
    if ((flags & (1 << k)) === 0 || (flags & MISSING) !== 0) return;
    reasons.push({ kind: limit.effect, clause: limit.clause, says: limit.says });
  });
  return reasons;
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
