import { incompleteBeta, logBetaKernel, logIncompleteBeta } from "../special/incomplete-beta";
import { logBeta } from "../special/gamma-function";
import type { Distribution, TailFunctions } from "./distribution";
import {
  atEnds,
  quantileByRoot,
  requirePositive,
  requireProbability,
  upperQuantileByRoot,
} from "./distribution";

/**
 * Beta distribution on 0…1: f(x) = x^(a−1) (1 − x)^(b−1) / B(a, b).
 *
 * Accuracy: cdf and tails 2e-13 relative, quantile 1e-12.
 */
export function beta(a: number, b: number): Distribution {
  requirePositive(a, "first shape", "beta");
  requirePositive(b, "second shape", "beta");
  const range: readonly [number, number] = [0, 1];
  const logPdf = (x: number): number => {
    if (x < 0 || x > 1) return -Infinity;
    if (x === 0) return a === 1 ? -logBeta(a, b) : a < 1 ? Infinity : -Infinity;
    if (x === 1) return b === 1 ? -logBeta(a, b) : b < 1 ? Infinity : -Infinity;
    return logBetaKernel(a, b, x, 1 - x) - Math.log(x) - Math.log1p(-x);
  };
  const parts: TailFunctions = {
    range,
    logPdf,
    logCdf: (x) => logIncompleteBeta(a, b, x).lower,
    logUpperTail: (x) => logIncompleteBeta(a, b, x).upper,
  };
  const start = a / (a + b);
  return {
    ...parts,
    name: `beta (${a}, ${b})`,
    mean: a / (a + b),
    sd: Math.sqrt((a * b) / (a + b + 1)) / (a + b),
    pdf: (x) => Math.exp(logPdf(x)),
    cdf: (x) => incompleteBeta(a, b, x).lower,
    upperTail: (x) => incompleteBeta(a, b, x).upper,
    quantile: (p) => {
      requireProbability(p, "beta.quantile");
      return atEnds(p, range, false) ?? quantileByRoot(parts, p, start);
    },
    upperQuantile: (p) => {
      requireProbability(p, "beta.upperQuantile");
      return atEnds(p, range, true) ?? upperQuantileByRoot(parts, p, start);
    },
  };
}
