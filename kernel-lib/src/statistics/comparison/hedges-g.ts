import { noncentralT } from "../distributions/noncentral-t";
import { intervalWords, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { logGamma } from "../special/gamma-function";
import type { ComparisonNames } from "./two-samples";
import { equalVarianceTest } from "./t-test";

/** Standardised difference of two means. */
export interface HedgesG extends Account {
  status: "ok";
  /** (mean B − mean A)/pooled SD, corrected for small-sample bias. */
  g: number;
  lower: number;
  upper: number;
  confidence: number;
}

/**
 * Hedges' g = J (x̄_B − x̄_A)/s_pooled with the exact correction J = Γ(ν/2)/[√(ν/2) Γ((ν − 1)/2)],
 * ν = n_A + n_B − 2 (Hedges 1981). Its interval inverts the noncentral t distribution of the
 * equal-variance t.
 */
export function hedgesG(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  options: ComparisonNames & { confidence?: number } = {},
): HedgesG | NotEstimable {
  const { confidence = 0.95, nameA = "A", nameB = "B" } = options;
  const method = "Hedges' g";
  const test = equalVarianceTest(a, b, options);
  if (test.status === "cannot be estimated")
    return { ...test, method, reading: test.reading.replace(test.method, method) };
  const v = test.degreesOfFreedom;
  const correction = Math.exp(logGamma(v / 2) - logGamma((v - 1) / 2)) / Math.sqrt(v / 2);
  const scale = Math.sqrt(1 / test.nA + 1 / test.nB);
  const tail = (1 - confidence) / 2;
  const lower =
    correction *
    scale *
    noncentralityOf(test.t, v, (delta) => noncentralT(v, delta).upperTail(test.t) - tail, 1);
  const upper =
    correction *
    scale *
    noncentralityOf(test.t, v, (delta) => tail - noncentralT(v, delta).cdf(test.t), 1);
  const g = correction * scale * test.t;
  return {
    status: "ok",
    method,
    g,
    lower,
    upper,
    confidence,
    n: test.n,
    excluded: test.excluded,
    assumptions: test.assumptions,
    reading: `The means of ${nameB} and ${nameA} differ by ${significant(g)} pooled SDs (Hedges' g, ${intervalWords(lower, upper, confidence)})${lower > 0 || upper < 0 ? "" : "; the interval includes 0, so neither sign is excluded"}.`,
  };
}

/** Root in δ of an increasing function, by bisection around t. */
function noncentralityOf(
  t: number,
  v: number,
  increasing: (delta: number) => number,
  reach: number,
): number {
  let low = t - reach * (8 + (8 * Math.abs(t)) / Math.sqrt(v));
  let high = t + reach * (8 + (8 * Math.abs(t)) / Math.sqrt(v));
  for (let i = 0; i < 90 && high - low > 1e-12 * Math.max(1, Math.abs(high)); i++) {
    const middle = 0.5 * (low + high);
    if (increasing(middle) < 0) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
