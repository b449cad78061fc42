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

/** Slip from which the modified law stays at tau3: s3 = s1 [1 + (1 - tau3/tau1)/p], mm. */
export function residualSlip({ tau1, s1, p, tau3 }: ModifiedBpeParameters): number {
  return s1 * (1 + (1 - tau3 / tau1) / p);
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

/**
 * Parameters of the bond law of Malvar (1994): strength tau_m (MPa) at slip s_m (mm), two constants
 * of the bar's surface.
 */
export interface MalvarParameters {
  readonly tauM: number;
  readonly sM: number;
  readonly F: number;
  readonly G: number;
}

/**
 * Bond stress by Malvar (1994): tau_m [F x + (G - 1) x^2] / [1 + (F - 2) x + G x^2] with x = s/s_m.
 * From memory, to be checked against a licensed copy.
 */
export function malvarStress(slip: number, { tauM, sM, F, G }: MalvarParameters): number {
  const x = Math.max(0, slip) / sM;
  return (tauM * (F * x + (G - 1) * x * x)) / (1 + (F - 2) * x + G * x * x);
}

/**
 * Bond strength by Malvar (1994) under a radial pressure: tau_m = f_t [A + B (1 - exp(-C
 * pressure/f_t))], MPa; A, B, C belong to the bar's surface. From memory, to be checked against a
 * licensed copy.
 */
export function malvarStrength(
  tensileStrength: number,
  pressure: number,
  { A, B, C }: { readonly A: number; readonly B: number; readonly C: number },
): number {
  return tensileStrength * (A - B * Math.expm1((-C * pressure) / tensileStrength));
}

/** A long bar anchored by the ascending branch tau1 (s/s1)^alpha alone. */
export interface AscendingAnchorage {
  /** Bar stress when the slip at the loaded end is s1, MPa. */
  readonly stress_MPa: number;
  /** Bonded length that this stress needs, mm. */
  readonly length_mm: number;
}

/**
 * Stress and length of a bar that the ascending branch alone anchors, from the bar's equilibrium
 * with an elastic bar in rigid concrete: sigma_1 = sqrt[8 E tau1 s1 / (d (1 + alpha))], l = sqrt[E
 * d s1 (1 + alpha) / (2 tau1)] / (1 - alpha). Derived.
 * @param modulus_MPa elastic modulus of the bar
 * @throws RangeError when alpha is not between 0 and 1 or another value not above 0
 * @example
 * ascendingAnchorage(45_000, 16, { tau1: 15, s1: 0.3, alpha: 0.3 }) // 279.08 MPa over 138.21 mm
 */
export function ascendingAnchorage(
  modulus_MPa: number,
  diameter_mm: number,
  { tau1, s1, alpha }: Pick<BpeParameters, "tau1" | "s1" | "alpha">,
): AscendingAnchorage {
  if (!(modulus_MPa > 0 && diameter_mm > 0 && tau1 > 0 && s1 > 0 && alpha > 0 && alpha < 1)) {
    throw new RangeError(
      `modulus ${modulus_MPa}, diameter ${diameter_mm}, tau1 ${tau1}, s1 ${s1}, alpha ${alpha}: expected all above 0 and alpha below 1`,
    );
  }
  return {
    stress_MPa: Math.sqrt((8 * modulus_MPa * tau1 * s1) / (diameter_mm * (1 + alpha))),
    length_mm: Math.sqrt((modulus_MPa * diameter_mm * s1 * (1 + alpha)) / (2 * tau1)) / (1 - alpha),
  };
}
