import type { BondSlipCurve } from "./bond-slip";
import { bpeStress, cmrStress, modifiedBpeStress } from "../dataset";
import { fitPositive, type CurveFit } from "./curve-fit";

/** The laws that can be fitted; the ascending law uses the branch up to the peak only. */
export type BondSlipLaw = "bpe" | "modified_bpe" | "cmr";

/** A bond law fitted to one record. */
export interface BondSlipFit extends CurveFit {
  readonly law: BondSlipLaw;
  /** The fitted law, MPa at a slip in mm. */
  readonly stressAt: (slip_mm: number) => number;
}

/**
 * Fits a bond stress-slip law to a record by least squares, with 95 % intervals. Fit each series on
 * its own: published means of these parameters scatter by more than half their value, and none is
 * given here as a default.
 * @throws RangeError for too few readings, a record without the branch the law needs, or a fit that
 *   does not settle
 * @example fitBondSlip(bondSlipCurve(reduced, 16, 80), "modified_bpe").parameters
 */
export function fitBondSlip(
  { slip_mm, bond_stress_MPa }: BondSlipCurve,
  law: BondSlipLaw,
): BondSlipFit {
  const top = bond_stress_MPa.indexOf(bond_stress_MPa.reduce((a, b) => Math.max(a, b), -Infinity));
  const [peak, slipAtPeak, last] = [
    bond_stress_MPa[top] ?? NaN,
    slip_mm[top] ?? NaN,
    slip_mm[slip_mm.length - 1] ?? NaN,
  ];
  if (!(peak > 0) || !(slipAtPeak > 0))
    throw new RangeError(
      `the peak is ${String(peak)} MPa at ${String(slipAtPeak)} mm: expected both above 0`,
    );
  if (law !== "cmr" && last < 1.5 * slipAtPeak)
    throw new RangeError(
      `the record ends at ${String(last)} mm: the descending branch of ${law} needs 1.5 times the slip at peak (${String(slipAtPeak)} mm)`,
    );
  const tail = Math.max(1e-3 * peak, bond_stress_MPa[bond_stress_MPa.length - 1] ?? NaN);
  if (law === "cmr") {
    const stressOf = (
      s: number,
      [tau1 = NaN, sr = NaN, beta = NaN]: ReadonlyArray<number>,
    ): number => cmrStress(s, { tau1, sr, beta });
    return finished(
      law,
      stressOf,
      fitPositive(
        ["tau1", "sr", "beta"],
        [peak, slipAtPeak / 3, 0.5],
        stressOf,
        slip_mm.slice(1, top + 1),
        bond_stress_MPa.slice(1, top + 1),
      ),
    );
  }
  const [slips, stresses] = [slip_mm.slice(1), bond_stress_MPa.slice(1)];
  if (law === "modified_bpe") {
    const stressOf = (
      s: number,
      [tau1 = NaN, s1 = NaN, alpha = NaN, p = NaN, tau3 = NaN]: ReadonlyArray<number>,
    ): number => modifiedBpeStress(s, { tau1, s1, alpha, p, tau3 });
    return finished(
      law,
      stressOf,
      fitPositive(
        ["tau1", "s1", "alpha", "p", "tau3"],
        [peak, slipAtPeak, 0.4, halfFall(slip_mm, bond_stress_MPa, top, peak, tail), tail],
        stressOf,
        slips,
        stresses,
      ),
    );
  }
  // The plateau's and the descent's lengths as parameters keep s1 < s2 < s3.
  const lengths = (
    s: number,
    [
      tau1 = NaN,
      s1 = NaN,
      plateau = NaN,
      descent = NaN,
      tau3 = NaN,
      alpha = NaN,
    ]: ReadonlyArray<number>,
  ): number =>
    bpeStress(s, { tau1, s1, s2: s1 + plateau, s3: s1 + plateau + descent, tau3, alpha });
  return finished(
    law,
    lengths,
    fitPositive(
      ["tau1", "s1", "plateau", "descent", "tau3", "alpha"],
      [peak, 0.9 * slipAtPeak, 0.3 * slipAtPeak, 0.6 * (last - slipAtPeak), tail, 0.4],
      lengths,
      slips,
      stresses,
    ),
  );
}

/** First guess of p: the slope, over s1, from the peak to where half of the fall has happened. */
function halfFall(
  slips: Float64Array,
  stresses: Float64Array,
  top: number,
  peak: number,
  tail: number,
): number {
  const half = (peak + tail) / 2;
  const at = stresses.findIndex((stress, i) => i > top && stress <= half);
  const [s1, s] = [slips[top] ?? NaN, slips[at === -1 ? slips.length - 1 : at] ?? NaN];
  return Math.max(1e-3, (1 - half / peak) / Math.max(1e-9, s / s1 - 1));
}

function finished(
  law: BondSlipLaw,
  stressOf: (slip: number, parameters: ReadonlyArray<number>) => number,
  fit: CurveFit,
): BondSlipFit {
  const values = fit.parameters.map(({ value }) => value);
  return { ...fit, law, stressAt: (slip) => stressOf(slip, values) };
}
