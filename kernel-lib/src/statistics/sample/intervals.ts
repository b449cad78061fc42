import { chiSquared } from "../distributions/chi-squared";
import { noncentralT } from "../distributions/noncentral-t";
import { studentT } from "../distributions/student-t";
import { intervalWords, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample } from "../result";
import { isNoSpread, mean, standardDeviation } from "./moments";

/** An estimate with its two-sided confidence interval; an upper end of null is unbounded. */
export interface EstimateInterval extends Account {
  status: "ok";
  estimate: number;
  lower: number;
  upper: number | null;
  confidence: number;
}

const NORMAL = ["values independent and of one population", "population normal"];

/** Interval of a mean: x̄ ± t(ν = n − 1) s/√n. */
export function meanInterval(
  values: ArrayLike<number>,
  confidence: number = 0.95,
): EstimateInterval | NotEstimable {
  return build("Student's t interval of the mean", "mean", values, confidence, (n, centre, sd) => {
    const half = (studentT(n - 1).upperQuantile((1 - confidence) / 2) * sd) / Math.sqrt(n);
    return [centre, centre - half, centre + half];
  });
}

/** Interval of a standard deviation: s √(ν/χ²). Sensitive to departure from a normal population. */
export function sdInterval(
  values: ArrayLike<number>,
  confidence: number = 0.95,
): EstimateInterval | NotEstimable {
  return build(
    "Chi-squared interval of the standard deviation",
    "standard deviation",
    values,
    confidence,
    (n, _centre, sd) => {
      const law = chiSquared(n - 1);
      const tail = (1 - confidence) / 2;
      return [
        sd,
        sd * Math.sqrt((n - 1) / law.upperQuantile(tail)),
        sd * Math.sqrt((n - 1) / law.quantile(tail)),
      ];
    },
  );
}

/**
 * Exact interval of a coefficient of variation: √n x̄/s is noncentral t with δ = √n/COV; the ends
 * solve for δ. The upper end is unbounded where the mean is not significantly above zero.
 */
export function covInterval(
  values: ArrayLike<number>,
  confidence: number = 0.95,
): EstimateInterval | NotEstimable {
  const method = "Noncentral-t interval of the coefficient of variation";
  const { values: x, excluded } = cleanSample(values, "covInterval");
  if (x.length > 0 && mean(x) <= 0)
    return notEstimable(method, "values not positive", "a mean above zero", x.length, excluded);
  return build(method, "coefficient of variation", values, confidence, (n, centre, sd) => {
    const t = (Math.sqrt(n) * centre) / sd;
    const tail = (1 - confidence) / 2;
    const largest = noncentralityWith((delta) => noncentralT(n - 1, delta).cdf(t) - tail, t);
    const smallest = noncentralityWith((delta) => tail - noncentralT(n - 1, delta).upperTail(t), t);
    return [sd / centre, Math.sqrt(n) / largest, smallest > 0 ? Math.sqrt(n) / smallest : null];
  });
}

/** Root in δ of a function that falls with δ, by bisection. */
function noncentralityWith(falling: (delta: number) => number, around: number): number {
  let low = around - 10 - Math.abs(around);
  let high = around + 10 + Math.abs(around);
  for (let i = 0; i < 20 && falling(low) < 0; i++) low -= 10 + Math.abs(low);
  for (let i = 0; i < 20 && falling(high) > 0; i++) high += 10 + Math.abs(high);
  for (let i = 0; i < 200 && high - low > 1e-13 * Math.max(1, Math.abs(low)); i++) {
    const middle = 0.5 * (low + high);
    if (falling(middle) > 0) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

function build(
  method: string,
  what: string,
  values: ArrayLike<number>,
  confidence: number,
  ends: (n: number, centre: number, sd: number) => [number, number, number | null],
): EstimateInterval | NotEstimable {
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(
      `${method}: confidence is ${confidence}, expected a number between 0 and 1`,
    );
  const { values: x, excluded } = cleanSample(values, method);
  const n = x.length;
  if (n < 2) return notEstimable(method, "too few values", "at least 2", n, excluded);
  const centre = mean(x);
  const sd = standardDeviation(x);
  if (isNoSpread(sd, centre))
    return notEstimable(method, "no spread", "values that differ", n, excluded);
  const [estimate, lower, upper] = ends(n, centre, sd);
  return {
    status: "ok",
    method,
    assumptions: NORMAL,
    n,
    excluded,
    estimate,
    lower,
    upper,
    confidence,
    reading: `The ${what} is ${significant(estimate)} (${intervalWords(lower, upper ?? Infinity, confidence)}, n = ${n}).`,
  };
}
