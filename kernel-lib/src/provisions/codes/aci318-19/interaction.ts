import { powerSum, STRAIGHT_LINES } from "../../model/interaction";
import type { InteractionRule } from "../../model/interaction-rule";

/** One interaction check: its value, its bound, and whether the bound is kept. */
export interface InteractionResult {
  readonly value: number;
  readonly limit: number;
  readonly holds: boolean;
  readonly clause: string;
}

/**
 * Tension and shear together, 17.8: shear up to 0.2 of its strength leaves the full tension, and
 * the reverse; else N/phi N_n + V/phi V_n <= 1.2.
 * @param tension N_ua / (phi N_n), 0 and above
 * @param shear V_ua / (phi V_n), 0 and above
 * @throws RangeError when a ratio is below 0 or missing
 * @example trilinearInteraction(0.7, 0.5).holds // true: 1.2 is not above 1.2
 */
export function trilinearInteraction(tension: number, shear: number): InteractionResult {
  requireRatios(tension, shear);
  if (shear <= 0.2) return { value: tension, limit: 1, holds: tension <= 1, clause: "17.8.1" };
  if (tension <= 0.2) return { value: shear, limit: 1, holds: shear <= 1, clause: "17.8.2" };
  const value = tension + shear;
  // Each ratio stays at most 1 on this branch, since the other is above 0.2.
  return { value, limit: 1.2, holds: value <= 1.2 * (1 + Number.EPSILON), clause: "17.8.3" };
}

/** The form the commentary allows instead, R17.8: (N/phi N_n)^(5/3) + (V/phi V_n)^(5/3) <= 1. */
export function powerInteraction(tension: number, shear: number): InteractionResult {
  requireRatios(tension, shear);
  const value = tension ** (5 / 3) + shear ** (5 / 3);
  return { value, limit: 1, holds: value <= 1 + Number.EPSILON, clause: "R17.8" };
}

function requireRatios(tension: number, shear: number): void {
  if (!(tension >= 0) || !(shear >= 0))
    throw new RangeError(
      `Ratios of action to strength ${tension} and ${shear}: expected both 0 or above.`,
    );
}

/**
 * For tests with both loads: the resultants at which the two forms above are met; the first is the
 * default.
 */
export const ACI318_INTERACTIONS: readonly InteractionRule[] = [
  {
    clause: "17.8",
    title: "Tension and shear together, straight lines",
    confidence: "H",
    equations: [
      { of: "every", clause: "17.8", meaning: "straight lines", resultant: STRAIGHT_LINES },
    ],
  },
  {
    clause: "R17.8",
    title: "Tension and shear together, power 5/3",
    confidence: "H",
    equations: [
      {
        of: "every",
        clause: "R17.8",
        meaning: "power 5/3",
        resultant: powerSum("(5 / 3)", "(3 / 5)"),
      },
    ],
  },
];
