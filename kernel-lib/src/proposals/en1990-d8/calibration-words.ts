import { shapiroWilk } from "../../statistics";
import type { ErrorTerms } from "./error-terms";
import type { TrendCheck } from "./trend-checks";
import type { Calibration } from "./calibration";

export const ASSUMPTIONS = [
  "the resistance and its error are lognormal and independent",
  "the tests represent the members for which the resistance function is intended",
  "the coefficients of variation of the basic variables apply to the members as built",
  "the factor on the nominal resistance is read from D.8.3 as r_n / r_d (k_c there): from memory, to be checked against a licensed copy",
];
export const LIKELIHOOD =
  "lower bounds used by maximum likelihood of lognormal errors (an extension, not in EN 1990): the reason those tests ended must be independent of their remaining strength; k_n and k_d,n are based on the number of failures only";

const tests = (n: number): string =>
  n === 1 ? "1 test is a lower bound" : `${n} tests are lower bounds`;

/**
 * Without its highest values a log-normal sample has too low a mean and too small a scatter. Three
 * standard deviations down, the second error is mostly the larger one.
 */
export function wordsOfLeftOut(lowerBounds: number): string[] {
  return lowerBounds > 0
    ? [
        `${tests(lowerBounds)} and ${lowerBounds === 1 ? "was" : "were"} left out, since Annex D cannot use ${lowerBounds === 1 ? "it" : "them"}: b is then too low and V_δ too small; the first makes r_k and r_d too low, the second too high, r_d more than r_k, so that they may err to the unsafe side; look at the fit that uses the bounds`,
      ]
    : [];
}

/** Warnings where lower bounds are used by likelihood. */
export function wordsOfUsed(n: number, lowerBounds: number): string[] {
  return [
    `${tests(lowerBounds)} and are included by likelihood, which EN 1990 does not cover`,
    ...(lowerBounds > n
      ? [
          `more lower bounds (${lowerBounds}) than failures (${n}): the scatter depends on the assumed distribution`,
        ]
      : []),
    "trends are checked for failures only",
  ];
}

/** Warnings on trends, distribution, scatter and number of tests. */
export function warningsOf(
  terms: ErrorTerms,
  trends: readonly TrendCheck[],
  n: number,
  factorCount: number,
  method: Calibration["method"],
): string[] {
  const warnings = trends.filter(({ trend }) => trend === "trend").map(({ reading }) => reading);
  const normality = shapiroWilk(terms.delta, { distribution: "lognormal" });
  // The failures of a censored sample are not log-normal even where all strengths are.
  if (method === "least squares" && normality.status === "ok" && normality.p < 0.05)
    warnings.push(
      `the error terms depart from a lognormal distribution (Shapiro-Wilk on ln δ, p = ${normality.p.toPrecision(2)}): extreme fractiles are doubtful`,
    );
  if (Math.abs(terms.b / terms.meanRatio - 1) > 0.1)
    warnings.push(
      `b = ${terms.b.toFixed(3)} gives large specimens the most weight and differs from the mean ratio ${terms.meanRatio.toFixed(3)}: the model error differs between small and large specimens`,
    );
  if (terms.cov > 0.3)
    warnings.push(
      `V_δ = ${terms.cov.toFixed(2)} is high: divide the tests into subsets or correct the resistance function`,
    );
  if (n < 10)
    warnings.push(
      `${n} tests: the scatter is poorly estimated; one more or one fewer test may change the factors`,
    );
  if (factorCount !== n)
    warnings.push(`k_n and k_d,n are based on ${factorCount} tests, b and V_δ on ${n}`);
  return warnings;
}

/** The calibration in one sentence. */
export function read(
  label: string,
  n: number,
  lowerBounds: number,
  terms: ErrorTerms,
  factor: number | null,
  gamma: number | null,
  trends: readonly TrendCheck[],
): string {
  const drifting = trends.filter(({ trend }) => trend === "trend").map(({ variable }) => variable);
  const trend =
    trends.length === 0
      ? "no trend was checked"
      : drifting.length > 0
        ? `the correction has a trend with ${drifting.join(", ")}`
        : "no trend of the correction was found";
  return `${label}: b = ${terms.b.toFixed(3)}, V_δ = ${terms.cov.toFixed(3)} from ${n} tests${lowerBounds > 0 ? ` and ${lowerBounds} lower bounds` : ""}; factor on the nominal resistance for the 5 % value ${factor === null ? "not told" : factor.toFixed(3)}, γ_M = ${gamma === null ? "not told" : gamma.toFixed(3)}; ${trend}.`;
}
