import { studentT } from "../distributions/student-t";
import type { RatioInterval } from "./ratio-interval";

/** Mean of a sample, the variance of that mean, and the degrees of freedom of that variance. */
export interface MeanWithError {
  readonly mean: number;
  readonly variance: number;
  readonly degrees: number;
}

/** Satterthwaite's degrees of freedom of a sum of independent variances: (Σ v_i)²/Σ(v_i²/ν_i). */
export function satterthwaite(
  parts: readonly Pick<MeanWithError, "variance" | "degrees">[],
): number {
  const total = parts.reduce((sum, { variance }) => sum + variance, 0);
  // As shares, so that squares of tiny variances do not underflow.
  return (
    1 / parts.reduce((sum, { variance, degrees }) => sum + (variance / total) ** 2 / degrees, 0)
  );
}

/**
 * One-sided tests of a ratio of positive means against θ, and the lower end that belongs to them.
 */
export interface RatioSide {
  /** p of "μ_B/μ_A ≤ θ": small where the ratio lies above θ. */
  pBelow(theta: number): number;
  /**
   * One-sided lower limit at a level: `pBelow(θ)` is below the level for θ below it, and only
   * there; 0 where nothing above 0 is excluded.
   */
  lowerEnd(level: number): number;
}

/** Points at which the least p below the ratio is looked for before golden section. */
const SCAN = 32;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Tests of the contrast μ_B − θ μ_A, from which both the interval of the ratio and the test of
 * equivalence are made, so that the two cannot disagree: T(θ) = (m_B − θ m_A)/√(v_B + θ² v_A)
 * against t with ν(θ) = (v_B + θ² v_A)²/(v_B²/ν_B + θ⁴ v_A²/ν_A) degrees of freedom,
 * Satterthwaite's for that contrast at the θ tested. At θ = 1 this is Welch's test. Degrees of
 * freedom of another contrast would be those of another variance: with those of the difference, a
 * sample of 2 that has most of the scatter at θ would be judged by the degrees of freedom of both
 * samples.
 *
 * T falls as θ rises (positive means), but ν changes with it and p need not rise everywhere. A
 * ratio shown to exceed θ' also exceeds every smaller θ: p is that of the best θ' from θ up to the
 * ratio of the means. θ = 1 is never excluded against Welch's test.
 *
 * Sources: Fieller, J. R. Stat. Soc. B 16 (1954); Sasabuchi, Biometrika 67 (1980) for the
 * contrasts; Satterthwaite, Biometrics Bulletin 2 (1946).
 */
export function ratioSide(a: MeanWithError, b: MeanWithError): RatioSide {
  const ratio = b.mean / a.mean;
  const pAt = (theta: number): number => {
    const shareA = { variance: theta * theta * a.variance, degrees: a.degrees };
    const spread = Math.sqrt(shareA.variance + b.variance);
    const gap = b.mean - theta * a.mean;
    if (spread === 0) return gap > 0 ? 0 : gap < 0 ? 1 : 0.5;
    return studentT(satterthwaite([shareA, b])).upperTail(gap / spread);
  };
  const turn = leastBelow(pAt, ratio);
  const atOne = turn > 1 ? pAt(1) : 0;
  const pBelow = (theta: number): number =>
    theta >= 1 ? Math.max(atOne, pAt(Math.max(theta, turn))) : pAt(Math.max(theta, turn));
  return {
    pBelow,
    lowerEnd: (level) => {
      if (pAt(turn) >= level) return 0;
      let [low, high] = [turn, ratio];
      for (let i = 0; i < 200 && high - low > 4e-16 * high; i += 1) {
        const middle = 0.5 * (low + high);
        if (pAt(middle) < level) low = middle;
        else high = middle;
      }
      return atOne >= level ? 1 : low;
    },
  };
}

/**
 * Interval of μ_B/μ_A at a confidence: the θ that the tests of {@link ratioSide} do not exclude;
 * the upper end is one over the lower end of A/B.
 */
export function contrastInterval(
  a: MeanWithError,
  b: MeanWithError,
  confidence: number,
): RatioInterval {
  const level = (1 - confidence) / 2;
  const ofInverse = ratioSide(b, a).lowerEnd(level);
  return ofInverse > 0
    ? { bounded: true, lower: ratioSide(a, b).lowerEnd(level), upper: 1 / ofInverse }
    : { bounded: false, lower: null, upper: null };
}

/** θ of the least p between 0 and the ratio; 0 where p rises throughout. */
function leastBelow(pAt: (theta: number) => number, ratio: number): number {
  let best = 0;
  let least = pAt(0);
  for (let k = 1; k < SCAN; k += 1) {
    const p = pAt((ratio * k) / SCAN);
    if (p < least) [best, least] = [k, p];
  }
  if (best === 0) return 0;
  let [low, high] = [(ratio * (best - 1)) / SCAN, (ratio * (best + 1)) / SCAN];
  for (let i = 0; i < 60; i += 1) {
    const [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (pAt(left) <= pAt(right)) high = right;
    else low = left;
  }
  return 0.5 * (low + high);
}
