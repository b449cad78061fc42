import { studentT } from "../distributions/student-t";
import { pWords, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample } from "../result";
import { isNoSpread, mean, standardDeviation } from "../sample/moments";

/** Which values Grubbs' test suspects. */
export type GrubbsSide = "either" | "least" | "largest";

/** Outcome of Grubbs' test: a flag, never a removal. */
export interface GrubbsTest extends Account {
  status: "ok";
  side: GrubbsSide;
  /** The farthest value on the suspected side and its place in the list given. */
  suspect: number;
  index: number;
  /** G = distance of the suspect from the mean in SDs. */
  g: number;
  critical: number;
  level: number;
  /** Bonferroni bound of p (exact for the larger G). */
  p: number;
  flagged: boolean;
}

/**
 * Critical value of Grubbs' test: G = (n − 1)/√n √[t²/(n − 2 + t²)], t the upper α/n (one side) or
 * α/2n (either) quantile of Student's t with n − 2 degrees of freedom (Grubbs 1969; Grubbs and Beck
 * 1972).
 * @example grubbsCritical(6, 0.05, "either") // 1.8871
 */
export function grubbsCritical(n: number, level: number, side: GrubbsSide): number {
  if (!(n >= 3)) throw new RangeError(`grubbsCritical: n is ${n}, expected at least 3`);
  if (!(level > 0 && level < 1))
    throw new RangeError(`grubbsCritical: level is ${level}, expected a number between 0 and 1`);
  const share = side === "either" ? level / (2 * n) : level / n;
  const t = studentT(n - 2).upperQuantile(Math.min(share, 0.5));
  return ((n - 1) / Math.sqrt(n)) * Math.sqrt((t * t) / (n - 2 + t * t));
}

/**
 * Grubbs' test for one outlier in a normal sample. It flags a value for a physical explanation to
 * be sought; by itself it is no reason to leave a test out. From n = 6 on it has power worth
 * having.
 */
export function grubbsTest(
  values: ArrayLike<number>,
  options: { side?: GrubbsSide; level?: number } = {},
): GrubbsTest | NotEstimable {
  const { side = "either", level = 0.05 } = options;
  const method = `Grubbs' test (${side === "either" ? "either side" : `${side} value`})`;
  const { values: x, excluded } = cleanSample(values, "grubbsTest");
  const n = x.length;
  if (n < 3)
    return notEstimable(method, "too few values", "at least 3 (6 to be useful)", n, excluded);
  const centre = mean(x);
  const sd = standardDeviation(x);
  if (isNoSpread(sd, centre))
    return notEstimable(method, "no spread", "values that differ", n, excluded);
  const distance = (value: number): number =>
    side === "either"
      ? Math.abs(value - centre)
      : side === "least"
        ? centre - value
        : value - centre;
  const suspect = x.reduce((far, value) => (distance(value) > distance(far) ? value : far));
  const g = distance(suspect) / sd;
  const critical = grubbsCritical(n, level, side);
  // G → t: t² = n(n − 2)G² / [(n − 1)² − nG²].
  const rest = (n - 1) ** 2 - n * g * g;
  const t = rest <= 0 ? Infinity : Math.sqrt((n * (n - 2) * g * g) / rest);
  const p = Math.min(1, (side === "either" ? 2 * n : n) * studentT(n - 2).upperTail(t));
  const flagged = g > critical;
  return {
    status: "ok",
    method,
    side,
    suspect,
    index: Array.from(values).indexOf(suspect),
    g,
    critical,
    level,
    p,
    flagged,
    n,
    excluded,
    assumptions: [
      "all other values of one normal population",
      "at most one outlier (several can mask each other)",
    ],
    reading: flagged
      ? `The value ${significant(suspect, 4)} is an outlier from a normal sample of ${n} (${method}, G = ${significant(g)} above ${significant(critical)}, ${pWords(p)}): look for a physical cause; it is flagged, not removed.`
      : `No outlier was found (${method}: the most extreme value, ${significant(suspect, 4)}, has G = ${significant(g)}, at most ${significant(critical)}, ${pWords(p)})${n < 6 ? "; with so few values, only a gross outlier could be detected" : ""}.`,
  };
}
