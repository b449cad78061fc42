import { N_PER_LBF } from "../../units";
import type { Confidence } from "../model/levels";
import { barSize, type BarSize } from "./bar-sizes";

/** A glass FRP bar of ASTM D7957: nominal size and guaranteed tensile force. */
export interface GuaranteedBar {
  readonly size: BarSize;
  readonly guaranteedForce_N: number;
  /** Force over nominal area. */
  readonly guaranteedStrength_MPa: number;
  readonly confidence: Confidence;
}

/** A least property of the specification. */
export interface LeastProperty {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly confidence: Confidence;
  readonly says: string;
}

/** Guaranteed force by bar number, kip. */
const FORCE_KIP: Readonly<Record<number, number>> = {
  2: 6.1,
  3: 13.2,
  4: 21.6,
  5: 29.1,
  6: 40.9,
  7: 54.1,
  8: 66.8,
  9: 82,
  10: 98.2,
};

/**
 * Sizes and guaranteed tensile forces of ASTM D7957 glass FRP bars. The forces are from memory, to
 * be checked against a licensed copy; the force is mean less three standard deviations, not a 5 %
 * fractile.
 */
export const ASTM_D7957_BARS: readonly GuaranteedBar[] = Object.entries(FORCE_KIP).map(
  ([number, kip]) => {
    const size = barSize("us", `No. ${number}`);
    const guaranteedForce_N = kip * 1000 * N_PER_LBF;
    return {
      size,
      guaranteedForce_N,
      guaranteedStrength_MPa: guaranteedForce_N / size.area_mm2,
      confidence: "M",
    };
  },
);

/** Least properties of ASTM D7957 that its public abstracts state. */
export const ASTM_D7957_PROPERTIES: readonly LeastProperty[] = [
  {
    name: "mean tensile modulus of elasticity",
    value: 44.8,
    unit: "GPa",
    confidence: "H",
    says: "6,500 ksi",
  },
  { name: "mean ultimate tensile strain", value: 1.1, unit: "%", confidence: "H", says: "1.1 %" },
  {
    name: "guaranteed transverse shear strength",
    value: 131,
    unit: "MPa",
    confidence: "H",
    says: "19 ksi; some owners ask for 22 ksi",
  },
  {
    name: "guaranteed bond strength",
    value: 7.6,
    unit: "MPa",
    confidence: "H",
    says: "1,100 psi by ASTM D7913",
  },
  { name: "fibre mass content", value: 70, unit: "%", confidence: "H", says: "70 %" },
  {
    name: "alkali tensile capacity retention",
    value: 80,
    unit: "%",
    confidence: "H",
    says: "80 % of the initial value",
  },
  {
    name: "force of bent portion",
    value: 60,
    unit: "%",
    confidence: "H",
    says: "60 % of the guaranteed force of the straight bar",
  },
];

/**
 * The ASTM D7957 bar of a US number.
 * @throws Error listing the numbers there are
 * @example astmD7957Bar(5).guaranteedForce_N / 1000 // 129.4 kN
 */
export function astmD7957Bar(number: number): GuaranteedBar {
  const found = ASTM_D7957_BARS.find((bar) => bar.size.designation === `No. ${number}`);
  if (!found)
    throw new Error(
      `No glass FRP bar number ${number}; expected one of ${Object.keys(FORCE_KIP).join(", ")}.`,
    );
  return found;
}
