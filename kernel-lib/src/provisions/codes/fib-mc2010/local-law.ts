import type { BpeParameters } from "../../../dataset";

/** Bond conditions and rib spacing that the local bond law depends on. */
export interface LocalBond {
  /** Mean cylinder strength, MPa. */
  readonly f_cm: number;
  readonly goodConditions: boolean;
  /** Clear distance between ribs, mm. */
  readonly clearRibSpacing_mm: number;
}

/**
 * Parameters of the local bond law of ribbed steel bars failing by pull-out, Table 6.1-1, for
 * `bpeStress`: tau_bmax = 2.5 sqrt(f_cm) in good, 1.25 sqrt(f_cm) in other conditions, alpha 0.4,
 * s1 1.0 / 1.8, s2 2.0 / 3.6 mm, s3 the clear distance between ribs, tau_bf = 0.4 tau_bmax (N, mm,
 * MPa).
 * @throws RangeError when the strength is not above 0 or the rib spacing not above s2
 * @example localBondLaw({ f_cm: 38, goodConditions: true, clearRibSpacing_mm: 10 }).tau1 // 15.41
 */
export function localBondLaw({
  f_cm,
  goodConditions,
  clearRibSpacing_mm,
}: LocalBond): BpeParameters {
  const [strength, s1, s2] = goodConditions ? [2.5, 1, 2] : [1.25, 1.8, 3.6];
  if (!(f_cm > 0) || !(clearRibSpacing_mm > s2))
    throw new RangeError(
      `Concrete strength ${f_cm} MPa and clear rib spacing ${clearRibSpacing_mm} mm: expected above 0 and above ${s2} mm.`,
    );
  const tau1 = strength * Math.sqrt(f_cm);
  return { tau1, s1, s2, s3: clearRibSpacing_mm, tau3: 0.4 * tau1, alpha: 0.4 };
}

/**
 * Slip at which splitting ends the ascending branch, 6.1.1: s = s1 (tau_split/tau_bmax)^(1/alpha),
 * mm.
 * @param splittingStress local bond strength by splitting, MPa, at most tau1
 * @throws RangeError for a stress below 0 or above tau1
 */
export function slipAtSplitting(
  splittingStress: number,
  { tau1, s1, alpha }: Pick<BpeParameters, "tau1" | "s1" | "alpha">,
): number {
  if (!(splittingStress >= 0 && splittingStress <= tau1))
    throw new RangeError(
      `Splitting stress ${splittingStress} MPa: expected from 0 to ${tau1} MPa.`,
    );
  return s1 * (splittingStress / tau1) ** (1 / alpha);
}
