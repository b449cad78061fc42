import { CYLINDER_FACTOR, type StrengthRule } from "../inputs/concrete-strength";

/** A converted strength with the rule that was used. */
export interface ConvertedStrength {
  readonly strength_MPa: number;
  readonly rule: string;
  /**
   * Relative half-width of the conversion; those of both steps added where neither end is the
   * cylinder.
   */
  readonly within: number;
}

/**
 * A concrete strength taken from one specimen shape to another, by way of the cylinder.
 * @param from basis of the value: cylinder, cube_150, cube_200 or cube_100
 * @throws Error for a basis without a rule, `unknown` among them
 * @example
 * convertStrength(37, "cube_150", "cylinder") // { strength_MPa: 30.34, rule: ..., within: 0.06 }
 */
export function convertStrength(strength_MPa: number, from: string, to: string): ConvertedStrength {
  const [first, second] = [ruleOf(from), ruleOf(to)];
  if (from === to) return { strength_MPa, rule: "as measured", within: 0 };
  const rule =
    to === "cylinder"
      ? first.says
      : `${first.says}; then divided by ${second.factor}: ${second.says}`;
  return {
    strength_MPa: (strength_MPa * first.factor) / second.factor,
    rule,
    within: first.within + second.within,
  };
}

function ruleOf(basis: string): StrengthRule {
  const rule = Object.hasOwn(CYLINDER_FACTOR, basis) ? CYLINDER_FACTOR[basis] : undefined;
  if (!rule)
    throw new Error(
      `No rule for a concrete strength of basis "${basis}"; expected one of ${Object.keys(CYLINDER_FACTOR).join(", ")}.`,
    );
  return rule;
}

/** Mean cylinder strength of a class, f_cm = f_ck + 8 MPa (EN 1992-1-1 Table 3.1). */
export function meanStrength(characteristic_MPa: number): number {
  return characteristic_MPa + 8;
}
