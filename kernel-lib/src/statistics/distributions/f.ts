import { incompleteBeta, logBetaKernel, logIncompleteBeta } from "../special/incomplete-beta";
import { normalQuantile } from "../special/normal-integral";
import type { Distribution, TailFunctions } from "./distribution";
import {
  atEnds,
  quantileByRoot,
  requirePositive,
  requireProbability,
  upperQuantileByRoot,
} from "./distribution";

/**
 * Fisher's F distribution with ν₁ (numerator) and ν₂ (denominator) degrees of freedom.
 *
 * P(F ≤ x) = I_w(ν₁/2, ν₂/2), w = ν₁x/(ν₁x + ν₂). Accuracy: cdf and tails 2e-13 relative, quantile
 * 1e-12.
 * @example f(3, 20).upperQuantile(0.05) // 3.0983…
 */
export function f(numerator: number, denominator: number): Distribution {
  requirePositive(numerator, "numerator degrees of freedom", "f");
  requirePositive(denominator, "denominator degrees of freedom", "f");
  const a = numerator / 2;
  const b = denominator / 2;
  const range: readonly [number, number] = [0, Infinity];
  // w and 1 − w, each without cancellation.
  const w = (x: number): number =>
    x === Infinity ? 1 : (numerator * x) / (numerator * x + denominator);
  const v = (x: number): number => denominator / (numerator * x + denominator);
  const logPdf = (x: number): number => {
    if (x < 0 || x === Infinity) return -Infinity;
    if (x === 0) return a === 1 ? 0 : a < 1 ? Infinity : -Infinity;
    return logBetaKernel(a, b, w(x), v(x)) - Math.log(x);
  };
  const parts: TailFunctions = {
    range,
    logPdf,
    logCdf: (x) => logIncompleteBeta(a, b, w(x), v(x)).lower,
    logUpperTail: (x) => logIncompleteBeta(a, b, w(x), v(x)).upper,
  };
  return {
    ...parts,
    name: `F (${numerator} and ${denominator} degrees of freedom)`,
    mean: denominator > 2 ? denominator / (denominator - 2) : NaN,
    sd:
      denominator > 4
        ? (denominator / (denominator - 2)) *
          Math.sqrt((2 * (numerator + denominator - 2)) / (numerator * (denominator - 4)))
        : NaN,
    pdf: (x) => Math.exp(logPdf(x)),
    cdf: (x) => (x <= 0 ? 0 : incompleteBeta(a, b, w(x), v(x)).lower),
    upperTail: (x) => (x <= 0 ? 1 : incompleteBeta(a, b, w(x), v(x)).upper),
    quantile: (p) => {
      requireProbability(p, "f.quantile");
      return atEnds(p, range, false) ?? quantileByRoot(parts, p, fStart(numerator, denominator, p));
    },
    upperQuantile: (p) => {
      requireProbability(p, "f.upperQuantile");
      return (
        atEnds(p, range, true) ??
        upperQuantileByRoot(parts, p, fStart(numerator, denominator, 1 - p))
      );
    },
  };
}

/** Cube-root normal start (Paulson): crude, refined by the root search. */
function fStart(numerator: number, denominator: number, p: number): number {
  if (!(p > 0 && p < 1)) return 1;
  const z = normalQuantile(p);
  const c1 = 2 / (9 * numerator);
  const c2 = 2 / (9 * denominator);
  const q = 1 - c2;
  const s = q * q - z * z * c2;
  if (s <= 0) return 1;
  const root =
    ((1 - c1) * q +
      z * Math.sqrt(Math.max(0, (1 - c1) * (1 - c1) * c2 + q * q * c1 - z * z * c1 * c2))) /
    s;
  return root > 0.1 ? root * root * root : 0.01;
}
