import type { TestRowInput } from "../../dataset";
import { reasonsAt, type CodePrediction, type FailureMode } from "../../provisions";

/** A mode that a specimen can fail in and whose capacity is not known. */
export interface ModeNotComputed {
  readonly mode: string;
  /** "bar_shear_strength_MPa is blank", a limit that is not met, or that there is no provision. */
  readonly reason: string;
}

/** Modes that any specimen of the action can fail in, each with those that stand for it; edges come in with an edge. */
const POSSIBLE: Readonly<Record<"tension" | "shear", readonly (readonly FailureMode[])[]>> = {
  tension: [["bond", "combined_cone_bond"], ["concrete_breakout"], ["bar_rupture", "yield"]],
  shear: [["bar_shear"], ["pryout"]],
};
const AT_AN_EDGE: Readonly<Record<"tension" | "shear", FailureMode>> = { tension: "splitting", shear: "concrete_edge_breakout" };

/**
 * Modes without a capacity that the specimen of one row can fail in. Without them the probability that another mode
 * comes first is only an upper bound: a capacity that cannot be computed is not one that cannot govern.
 * @example modesNotComputed(prediction, candidate, 0) // [{ mode: "bar_shear", reason: "bar_shear_strength_MPa is blank" }]
 */
export function modesNotComputed(prediction: CodePrediction, candidate: TestRowInput, row: number): ModeNotComputed[] {
  const action = candidate.action === "shear" ? "shear" : "tension";
  const possible = candidate.edge_1_mm == null ? POSSIBLE[action] : [...POSSIBLE[action], [AT_AN_EDGE[action]]];
  return possible.flatMap((modes): ModeNotComputed[] => {
    const columns = prediction.columns.filter(({ provision }) => provision.action === action && provision.modes.some((mode) => modes.includes(mode)));
    if (columns.some(({ capacity }) => Number.isFinite(capacity[row] ?? NaN))) return [];
    const reasons = columns.flatMap((column) => reasonsAt(prediction, column, row));
    const reason = reasons.find(({ kind }) => kind === "missing") ?? reasons.find(({ kind }) => kind === "not_applicable");
    return [{ mode: modes[0]!, reason: reason ? blankWords(reason.says, reason.clause) : `${prediction.code.id} has no provision for it` }];
  });
}

/** "needs x (meaning)" as "x is blank"; a limit with its clause. */
function blankWords(says: string, clause: string): string {
  const column = /^needs (\w+) \(/.exec(says)?.[1];
  return column === undefined ? `${clause}: ${says}` : `${column} is blank`;
}
