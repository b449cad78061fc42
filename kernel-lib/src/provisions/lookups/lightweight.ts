/** How a bar is held, as far as its lightweight factor is concerned. */
export type LightweightFailure =
  "cast_in_concrete" | "undercut_concrete" | "expansion_screw_adhesive_concrete" | "adhesive_bond";

/** Share of lambda that enters for anchors in lightweight concrete, ACI 318-19 Table 17.2.4.1. */
export const ANCHOR_LIGHTWEIGHT: Readonly<Record<LightweightFailure, number>> = {
  cast_in_concrete: 1,
  undercut_concrete: 1,
  expansion_screw_adhesive_concrete: 0.8,
  adhesive_bond: 0.6,
};

/**
 * Lightweight factor of concrete by its equilibrium density, ACI 318-19 Table 19.2.4.1(a): 0.75 up
 * to 100 lb/ft³,
 * 0.0075 w up to 135 lb/ft³, 1 above. From memory, to be checked against a licensed copy.
 * @param density_kg_m3 equilibrium density; 1 lb/ft³ is 16.018463 kg/m³
 * @throws RangeError when the density is not above 0
 * @example lightweightFactor(1800) // 0.8428
 */
export function lightweightFactor(density_kg_m3: number): number {
  if (!(density_kg_m3 > 0))
    throw new RangeError(`Density ${density_kg_m3} kg/m³: expected above 0.`);
  const density = density_kg_m3 / 16.018463;
  return Math.max(0.75, Math.min(1, 0.0075 * density));
}

/**
 * Lightweight factor of anchors, 17.2.4.1: a share of lambda in lightweight concrete, 1 in
 * normal-weight concrete.
 */
export function anchorLightweightFactor(
  failure: LightweightFailure,
  lambda: number,
  lightweight: boolean,
): number {
  return lightweight ? ANCHOR_LIGHTWEIGHT[failure] * lambda : 1;
}
