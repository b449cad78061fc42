import { chiSquared } from "../distributions/chi-squared";
import { increasingRoot } from "../special/monotone-root";
import { normalDensity, normalIntegral, normalQuantile } from "../special/normal-integral";
import { gaussLegendre } from "../special/quadrature";
import { percent, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample } from "../result";
import { isNoSpread, mean, standardDeviation } from "./moments";
import { requireQuestion } from "../tolerance/tolerance-factor";

/** An interval that holds a share of the population with stated confidence. */
export interface ToleranceInterval extends Account {
  status: "ok";
  lower: number;
  upper: number;
  k: number;
  mean: number;
  sd: number;
}

/**
 * Exact factor k of the two-sided normal tolerance interval mean ± k·SD that holds the share
 * `content` of the population with the given confidence (Wald and Wolfowitz's integral, without
 * their approximation).
 *
 * ∫ √n φ(√n x) P[χ²_ν > ν r(x)²/k²] dx = confidence, with Φ(x + r) − Φ(x − r) = content. Relative
 * error below 1e-9.
 * @example twoSidedToleranceFactor(10, 0.95, 0.95) // 3.393
 */
export function twoSidedToleranceFactor(
  n: number,
  content: number = 0.95,
  confidence: number = 0.9,
): number {
  requireQuestion("twoSidedToleranceFactor", n, 1 - content, confidence);
  if (n < 2) throw new RangeError(`twoSidedToleranceFactor: n is ${n}, expected at least 2`);
  const v = n - 1;
  const law = chiSquared(v);
  const { nodes, weights } = gaussLegendre(20);
  const points: { weight: number; square: number }[] = [];
  const root = Math.sqrt(n);
  // Half of a symmetric integral over z = √n x from 0 to 8.4, four panels.
  for (let panel = 0; panel < 4; panel++) {
    for (let i = 0; i < nodes.length; i++) {
      const z = 1.05 * (2 * panel + 1 + nodes[i]!);
      const r = halfWidth(z / root, content);
      points.push({ weight: 2 * 1.05 * weights[i]! * normalDensity(z), square: v * r * r });
    }
  }
  const start =
    normalQuantile((1 + content) / 2) * Math.sqrt((v * (1 + 1 / n)) / law.quantile(1 - confidence));
  return increasingRoot(
    (k) => {
      let value = -confidence;
      let slope = 0;
      for (const { weight, square } of points) {
        const chi = square / (k * k);
        value += weight * law.upperTail(chi);
        slope += (weight * law.pdf(chi) * 2 * chi) / k;
      }
      return { value, slope };
    },
    start,
    0,
    Infinity,
    1e-12,
  );
}

/** r with Φ(x + r) − Φ(x − r) = content, for x ≥ 0. */
function halfWidth(x: number, content: number): number {
  return increasingRoot(
    (r) => ({
      value: normalIntegral(x + r) - normalIntegral(x - r) - content,
      slope: normalDensity(x + r) + normalDensity(x - r),
    }),
    x + normalQuantile(content),
    0,
    Infinity,
    1e-14,
  );
}

/** Two-sided normal tolerance interval of a sample: mean ± k·SD. */
export function toleranceInterval(
  values: ArrayLike<number>,
  options: { content?: number; confidence?: number } = {},
): ToleranceInterval | NotEstimable {
  const { content = 0.95, confidence = 0.9 } = options;
  const method = "Two-sided tolerance interval, normal";
  const { values: x, excluded } = cleanSample(values, "toleranceInterval");
  const n = x.length;
  if (n < 3) return notEstimable(method, "too few values", "at least 3", n, excluded);
  const centre = mean(x);
  const sd = standardDeviation(x);
  if (isNoSpread(sd, centre))
    return notEstimable(method, "no spread", "values that differ", n, excluded);
  const k = twoSidedToleranceFactor(n, content, confidence);
  const lower = centre - k * sd;
  const upper = centre + k * sd;
  return {
    status: "ok",
    lower,
    upper,
    k,
    mean: centre,
    sd,
    n,
    method,
    excluded,
    assumptions: ["values independent and of one population", "population normal"],
    reading: `With ${percent(confidence)} confidence at least ${percent(content)} of the population lies between ${significant(lower)} and ${significant(upper)} (n = ${n}, k = ${k.toFixed(3)}).`,
  };
}
