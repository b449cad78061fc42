import { f } from "../distributions/f";

/** Outcome of Welch's test of means that each have a variance of their own. */
export interface WelchOfMeans {
  readonly f: number;
  readonly numeratorDegrees: number;
  readonly denominatorDegrees: number;
  readonly p: number;
}

/**
 * Welch's one-way test from estimates: k means m_i with weights w_i = 1/variance of m_i, known to
 * ν_i degrees of freedom. F = Σ w_i (m_i − m̄)²/(k − 1) / (1 + 2 (k − 2) Λ/(k² − 1)), Λ = Σ (1 −
 * w_i/Σw)²/ν_i, on k − 1 and (k² − 1)/(3 Λ) degrees of freedom (Biometrika 38, 1951). It holds for
 * any estimates that are about normal, not only for means of samples.
 * @example welchOfMeans([0.02, -0.11], [1 / 0.03 ** 2, 1 / 0.04 ** 2], [10, 6]).p
 */
export function welchOfMeans(
  means: readonly number[],
  weights: readonly number[],
  degrees: readonly number[],
): WelchOfMeans {
  const k = means.length;
  const total = weights.reduce((sum, w) => sum + w, 0);
  const centre = means.reduce((sum, mean, i) => sum + (weights[i]! / total) * mean, 0);
  const between =
    means.reduce((sum, mean, i) => sum + weights[i]! * (mean - centre) ** 2, 0) / (k - 1);
  const lambda = degrees.reduce((sum, nu, i) => sum + (1 - weights[i]! / total) ** 2 / nu, 0);
  const [numeratorDegrees, denominatorDegrees] = [k - 1, (k * k - 1) / (3 * lambda)];
  const statistic = between / (1 + (2 * (k - 2) * lambda) / (k * k - 1));
  return {
    f: statistic,
    numeratorDegrees,
    denominatorDegrees,
    p: f(numeratorDegrees, denominatorDegrees).upperTail(statistic),
  };
}
