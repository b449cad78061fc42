import type { TestRowInput } from "../../dataset";
import { reasonsAt, type CodePrediction, type FailureMode } from "../../provisions";

/** A mode that a specimen can fail in and whose capacity is not known. */
export interface ModeNotComputed {
  readonly mode: string;
  /** "bar_shear_strength_MPa is blank", a limit that is not met, or that there is no provision. */
  readonly reason: string;
}

/**
 * Modes that a specimen can fail in, each with those that stand for it; in shear an edge adds its
 * breakout.
 */
const POSSIBLE: Readonly<Record<"tension" | "shear", readonly (readonly FailureMode[])[]>> = {
  tension: [["bond", "combined_cone_bond"], ["concrete_breakout"], ["bar_rupture", "yield"]],
  shear: [["bar_shear"], ["pryout"]],
};

/**
 * Modes without a capacity that the specimen of one row can fail in, splitting aside. Without them
 * the probability that another mode comes first is only an upper bound: a capacity that cannot be
 * computed is not one that cannot govern.
 * @example
 * const [gfrp] = tests.rows().filter(({ bar_material }) => bar_material === "gfrp");
 * const candidate = { ...gfrp, action: "shear", bar_shear_strength_MPa: null,
 *   bar_shear_strength_specified_MPa: null } as const;
 * const blank = predict(code("aci318-19"), TestTable.fromRows([candidate]));
 * modesNotComputed(blank, candidate, 0)
 * // [{ mode: "bar_shear", reason: "bar_shear_strength_MPa is blank" }]
 */
export function modesNotComputed(
  prediction: CodePrediction,
  candidate: TestRowInput,
  row: number,
): ModeNotComputed[] {
  const action = candidate.action === "shear" ? "shear" : "tension";
  const breakout = action === "shear" && typeof candidate.edge_1_mm === "number";
  const atEdge: readonly (readonly FailureMode[])[] = breakout ? [["concrete_edge_breakout"]] : [];
  return [...POSSIBLE[action], ...atEdge].flatMap((modes): ModeNotComputed[] => {
    const ofMode = prediction.columns.filter(({ provision }) =>
      provision.modes.some((mode) => modes.includes(mode)),
    );
    const columns = ofMode.filter(({ provision }) => provision.action === action);
    if (columns.some(({ capacity }) => Number.isFinite(capacity[row] ?? NaN))) return [];
    const reasons = columns.flatMap((column) => reasonsAt(prediction, column, row));
    const reason =
      reasons.find(({ kind }) => kind === "missing") ??
      reasons.find(({ kind }) => kind === "not_applicable");
    const none = `${prediction.code.id} has no provision for it at the ${prediction.level} level`;
    return [{ mode: modes[0]!, reason: reason ? blankWords(reason.says, reason.clause) : none }];
  });
}

/** "needs x (meaning)" as "x is blank"; a limit with its clause. */
function blankWords(says: string, clause: string): string {
  const column = /^needs (\w+) \(/.exec(says)?.[1];
  return column === undefined ? `${clause}: ${says}` : `${column} is blank`;
}
