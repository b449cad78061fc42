import type { CurveReduction } from "./curve-reduction";

/** Average bond stress against slip. */
export interface BondSlipCurve {
  readonly slip_mm: Float64Array;
  readonly bond_stress_MPa: Float64Array;
}

/**
 * Bond stress-slip curve of a reduced record: tau = N / (pi d l), N in N, d and l in mm.
 * An average over the bonded length; near the local law only for short lengths (about 5 diameters
 * or less).
 */
export function bondSlipCurve(
  { slip_mm, load_kN }: Pick<CurveReduction, "slip_mm" | "load_kN">,
  diameter_mm: number,
  embedment_mm: number,
): BondSlipCurve {
  if (!(diameter_mm > 0) || !(embedment_mm > 0))
    throw new RangeError(
      `diameter ${String(diameter_mm)} mm and embedment ${String(embedment_mm)} mm: expected both above 0`,
    );
  const surface = Math.PI * diameter_mm * embedment_mm;
  return {
    slip_mm: slip_mm.slice(),
    bond_stress_MPa: load_kN.map((load) => (1000 * load) / surface),
  };
}
