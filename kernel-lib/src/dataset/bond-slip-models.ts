/**
 * Parameters of the bond law of Eligehausen, Popov and Bertero (1983): stresses in MPa, slips in
 * mm.
 */
export interface BpeParameters {
  readonly tau1: number;
  readonly s1: number;
  readonly s2: number;
  readonly s3: number;
  readonly tau3: number;
  readonly alpha: number;
}

/**
 * Bond stress by Eligehausen, Popov and Bertero (1983): tau1 (s/s1)^alpha up to s1, tau1 up to s2,
 * linear to tau3 at s3, then tau3.
 * @param slip mm, at least 0
 */
export function bpeStress(slip: number, { tau1, s1, s2, s3, tau3, alpha }: BpeParameters): number {
  if (slip <= s1) return tau1 * (Math.max(0, slip) / s1) ** alpha;
  if (slip <= s2) return tau1;
  return slip < s3 ? tau1 - ((tau1 - tau3) * (slip - s2)) / (s3 - s2) : tau3;
}

/**
 * Parameters of the bond law of Cosenza, Manfredi and Realfonzo (1997) for FRP bars, which has no
 * plateau.
 */
export interface ModifiedBpeParameters {
  readonly tau1: number;
  readonly s1: number;
  readonly alpha: number;
  readonly p: number;
  readonly tau3: number;
}

/**
 * Bond stress by the modified law (1997): tau1 (s/s1)^alpha up to s1, then tau1 (1 - p (s/s1 - 1)),
 * not below tau3.
 */
export function modifiedBpeStress(
  slip: number,
  { tau1, s1, alpha, p, tau3 }: ModifiedBpeParameters,
): number {
  if (slip <= s1) return tau1 * (Math.max(0, slip) / s1) ** alpha;
  return Math.max(tau3, tau1 * (1 - p * (slip / s1 - 1)));
}

/** Parameters of the ascending law of Cosenza, Manfredi and Realfonzo (1995). */
export interface CmrParameters {
  readonly tau1: number;
  readonly sr: number;
  readonly beta: number;
}

/**
 * Bond stress of the ascending branch: tau1 (1 - exp(-s/sr))^beta. It says nothing beyond the peak.
 */
export function cmrStress(slip: number, { tau1, sr, beta }: CmrParameters): number {
  return tau1 * (-Math.expm1(-Math.max(0, slip) / sr)) ** beta;
}
