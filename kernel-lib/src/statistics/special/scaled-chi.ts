import { stirlingError } from "./gamma-function";

/**
 * ln of the density of S = √(χ²_ν/ν), the sampling distribution of (sample SD)/(true SD):
 * f(s) = 2 (ν/2)^(ν/2) s^(ν−1) exp(−ν s²/2) / Γ(ν/2), s > 0.
 *
 * Returned as a function of s with the constants worked out once.
 */
export function logScaledChiDensity(degreesOfFreedom: number): (s: number) => number {
  const a = degreesOfFreedom / 2;
  const constant = Math.LN2 + 0.5 * Math.log(a / (2 * Math.PI)) - stirlingError(a);
  // s² − 1 − 2 ln s through e = s − 1 keeps all digits near s = 1, where large ν puts all the
  // weight.
  return (s) => {
    const e = s - 1;
    return constant - a * (e * (2 + e) - 2 * Math.log1p(e)) - Math.log(s);
  };
}
