import { gaussLegendre } from "../special/quadrature";
import { logScaledChiDensity } from "../special/scaled-chi";
import { requirePositive, requireProbability } from "./distribution";
import { rangeTail } from "./range-tail-table";

/** The distribution of the studentised range, as far as multiple comparisons need it. */
export interface StudentizedRange {
  readonly name: string;
  /** P(Q ≤ q). */
  cdf(q: number): number;
  /** P(Q > q), accurate also where it is small. */
  upperTail(q: number): number;
  /** q with P(Q ≤ q) = p. */
  quantile(p: number): number;
  /** q with P(Q > q) = p. */
  upperQuantile(p: number): number;
}

const POINTS = 20;

/**
 * Studentised range Q = (largest − least of k means)/SE with ν degrees of freedom of the standard
 * error (ν may be Infinity), for Tukey's and Games–Howell comparisons.
 *
 * P(Q > q) = ∫ f_S(s) R(qs) ds, R(w) = k ∫ φ(z) {Φ(z)^(k−1) − [Φ(z) − Φ(z − w)]^(k−1)} dz, both by
 * Gauss–Legendre panels. Accuracy: tails about 1e-10 relative down to 1e-15; quantile 1e-9
 * relative.
 * @example studentizedRange(3, 10).quantile(0.95) // 3.8767…
 */
export function studentizedRange(groups: number, degreesOfFreedom: number): StudentizedRange {
  if (!Number.isInteger(groups) || groups < 2)
    throw new RangeError(
      `studentizedRange: number of groups is ${groups}, expected a whole number of at least 2`,
    );
  if (degreesOfFreedom !== Infinity)
    requirePositive(degreesOfFreedom, "degrees of freedom", "studentizedRange");
  const upperTail = (q: number): number => {
    if (Number.isNaN(q)) return NaN;
    if (q <= 0) return 1;
    if (q === Infinity) return 0;
    return Math.min(
      1,
      degreesOfFreedom === Infinity || degreesOfFreedom > 1e6
        ? rangeTail(q, groups)
        : studentized(q, groups, degreesOfFreedom),
    );
  };
  const upperQuantile = (p: number): number => {
    requireProbability(p, "studentizedRange.upperQuantile");
    if (p === 0) return Infinity;
    if (p === 1) return 0;
    return fallingRoot((q) => Math.log(upperTail(q)) - Math.log(p));
  };
  return {
    name: `studentised range (${groups} groups, ${degreesOfFreedom} degrees of freedom)`,
    cdf: (q) => 1 - upperTail(q),
    upperTail,
    quantile: (p) => {
      requireProbability(p, "studentizedRange.quantile");
      return upperQuantile(1 - p);
    },
    upperQuantile,
  };
}

function studentized(q: number, groups: number, v: number): number {
  const { nodes, weights } = gaussLegendre(POINTS);
  const logDensity = logScaledChiDensity(v);
  const spread = 1 / Math.sqrt(2 * v);
  // Far tails are made by small s, so the range reaches down to 0 unless the density is nil there.
  const from = Math.max(0, 1 - 12 * spread);
  const to = 1 + 8.5 * spread;
  const finest = Math.min(1.6 * spread, Math.max(2 / q, 0.25 * spread));
  let total = 0;
  let a = from;
  while (a < to) {
    // Near 0 the density goes as s^(ν−1), not smooth unless ν is whole: panels there grow with s.
    const grown = a === 0 ? 1e-4 * finest : from === 0 ? 1.5 * a : Infinity;
    const b = Math.min(to, a + Math.min(finest, grown));
    const half = 0.5 * (b - a);
    let part = 0;
    for (let i = 0; i < POINTS; i++) {
      const s = 0.5 * (a + b) + half * nodes[i]!;
      const density = half * weights[i]! * Math.exp(logDensity(s));
      // What cannot move the sum is not worth the inner tail.
      if (density > 1e-17 * total) part += density * rangeTail(q * s, groups);
    }
    total += part;
    a = b;
    if (a > 1 && part < 1e-16 * total) break;
  }
  return total;
}

/** Root of a falling function of q > 0 by the secant method inside a bracket (Illinois rule). */
function fallingRoot(value: (q: number) => number): number {
  let low = 0;
  let lowValue = NaN;
  let high = 4;
  let highValue = value(high);
  while (highValue > 0) {
    low = high;
    lowValue = highValue;
    high *= 2;
    highValue = value(high);
  }
  if (low === 0) {
    low = 1e-6;
    lowValue = value(low);
    if (lowValue <= 0) return low;
  }
  for (let i = 0; i < 100 && high - low > 1e-12 * high; i++) {
    const q = Math.min(
      Math.max((low * highValue - high * lowValue) / (highValue - lowValue), low),
      high,
    );
    const here = value(q);
    if (here === 0 || q === low || q === high) return q;
    if (here > 0) {
      low = q;
      lowValue = here;
      highValue *= 0.5;
    } else {
      high = q;
      highValue = here;
      lowValue *= 0.5;
    }
    if (Math.abs(here) < 1e-13) return q;
  }
  return 0.5 * (low + high);
}
