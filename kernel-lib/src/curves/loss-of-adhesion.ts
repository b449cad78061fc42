/**
 * Load at loss of adhesion of a bonded bar (ACI 355.4 / EAD 330499 way; to be checked against a
 * licensed copy): the secant to 0.3 Nu is drawn with its slope divided by 1.5; its first crossing
 * with the curve is Nadh, unless a higher load lies before it. If the slip at 0.3 Nu is at most
 * 0.05 mm, the line starts at that point of the curve.
 * @param slip slip in mm, not decreasing; @param load load in kN, from 0 at the start
 * @returns the load in kN, or null when the line never crosses the curve within the record
 */
export function lossOfAdhesion(slip: Float64Array, load: Float64Array): number | null {
  const peak = load.reduce((a, b) => Math.max(a, b), 0);
  const at = load.findIndex((value) => value >= 0.3 * peak);
  if (at < 1) return null;
  const share = (0.3 * peak - (load[at - 1] ?? NaN)) / ((load[at] ?? NaN) - (load[at - 1] ?? NaN));
  const slipAt30 = (slip[at - 1] ?? NaN) + share * ((slip[at] ?? NaN) - (slip[at - 1] ?? NaN));
  if (!(slipAt30 > 0)) return null;
  const slope = (0.3 * peak) / slipAt30 / 1.5;
  const shifted = slipAt30 <= 0.05;
  const line = (s: number): number => (shifted ? 0.3 * peak + slope * (s - slipAt30) : slope * s);
  let highest = 0.3 * peak;
  for (let i = at; i < load.length; i += 1) {
    const [s, n] = [slip[i] ?? NaN, load[i] ?? NaN];
    // At the shifted origin line and curve touch: the crossing is looked for behind it.
    if (s > slipAt30 && n <= line(s)) {
      const [s0, n0] = i > at ? [slip[i - 1] ?? NaN, load[i - 1] ?? NaN] : [slipAt30, 0.3 * peak];
      const [over, under] = [n0 - line(s0), line(s) - n];
      const crossing = over + under > 0 ? n0 + (over / (over + under)) * (n - n0) : n;
      return Math.max(highest, crossing);
    }
    highest = Math.max(highest, n);
  }
  return null;
}
