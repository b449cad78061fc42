/**
 * Strength of a bend in an FRP bar: f_fb = (0.05 r_b/d_b + 0.3) f_fu, not above f_fu. Any stress
 * unit.
 * @param radiusOverDiameter inside radius of the bend over the bar diameter
 * @throws RangeError when the ratio or the strength is not above 0
 * @example bendStrength(3, 64) // 28.8
 */
export function bendStrength(radiusOverDiameter: number, strength: number): number {
  if (!(radiusOverDiameter > 0) || !(strength > 0))
    throw new RangeError(
      `Bend radius over diameter ${radiusOverDiameter} and strength ${strength}: expected both above 0.`,
    );
  return Math.min(0.05 * radiusOverDiameter + 0.3, 1) * strength;
}
