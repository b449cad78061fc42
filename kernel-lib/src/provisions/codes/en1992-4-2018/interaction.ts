import { powerSum, STRAIGHT_LINES } from "../../model/interaction";
import type { InteractionEquation, InteractionRule } from "../../model/interaction-rule";

/**
 * Utilizations of one interaction check: the sum or power sum, and whether it stays within the
 * code's bound.
 */
export interface InteractionCheck {
  readonly value: number;
  readonly limit: number;
  readonly holds: boolean;
}

/**
 * Steel failure under tension and shear, Table 7.3: (N/N_Rd)^2 + (V/V_Rd)^2 <= 1.
 * @param tension ratio of tension to tension strength, 0 and above
 * @param shear ratio of shear to shear strength, 0 and above
 * @example steelInteraction(0.6, 0.8).value // 1
 */
export function steelInteraction(tension: number, shear: number): InteractionCheck {
  requireRatios(tension, shear);
  return judged(tension * tension + shear * shear, 1);
}

/**
 * Failure other than of steel under tension and shear, Table 7.3: N^1.5 + V^1.5 <= 1, or the
 * straight form N + V <= 1.2 with each ratio at most 1. The worst ratio of each action is used,
 * steel apart.
 */
export function concreteInteraction(
  tension: number,
  shear: number,
  form: "power" | "straight" = "power",
): InteractionCheck {
  requireRatios(tension, shear);
  if (form === "power") return judged(tension ** 1.5 + shear ** 1.5, 1);
  const check = judged(tension + shear, 1.2);
  return { ...check, holds: check.holds && tension <= 1 && shear <= 1 };
}

function judged(value: number, limit: number): InteractionCheck {
  // 0.8 + 0.4 is 1.2 to an engineer.
  return { value, limit, holds: value <= limit * (1 + Number.EPSILON) };
}

function requireRatios(tension: number, shear: number): void {
  if (!(tension >= 0) || !(shear >= 0))
    throw new RangeError(
      `Ratios of action to strength ${tension} and ${shear}: expected both 0 or above.`,
    );
}

const STEEL: InteractionEquation = {
  of: "steel",
  clause: "Table 7.3",
  meaning: "steel",
  resultant: powerSum("2", "0.5"),
};
const other = (resultant: string): InteractionEquation => ({
  of: "other",
  clause: "Table 7.3",
  meaning: "failures other than of steel",
  resultant,
});

/**
 * For tests with both loads: the resultants at which the equations above are met; the first form is
 * the default.
 */
export const EN1992_INTERACTIONS: readonly InteractionRule[] = [
  {
    clause: "Table 7.3",
    title: "Tension and shear together, power 2 (steel) and 1.5 (others)",
    confidence: "H",
    equations: [STEEL, other(powerSum("1.5", "(2 / 3)"))],
  },
  {
    clause: "Table 7.3",
    title: "Tension and shear together, power 2 (steel) and straight lines (others)",
    confidence: "H",
    equations: [STEEL, other(STRAIGHT_LINES)],
  },
];
