/** Interval of a ratio; `bounded` is false where the data allow any ratio on at least one side. */
export interface RatioInterval {
  bounded: boolean;
  /** null where unbounded. */
  lower: number | null;
  upper: number | null;
}

/**
 * Fieller's interval of ρ = μ_B/μ_A with one quantile t for every ρ: all ρ with (m_B − ρ m_A)² ≤ t²
 * (v_B + ρ² v_A), v the variances of the means. For variances with degrees of freedom of their own,
 * `contrastInterval` takes those of the contrast at each ρ.
 *
 * Where m_A is not significantly above zero the set is not an interval: reported as not bounded.
 * At ρ = 1 the condition is the t-test itself, so interval and test never contradict each other.
 */
export function fiellerInterval(
  meanA: number,
  meanB: number,
  varianceOfMeanA: number,
  varianceOfMeanB: number,
  t: number,
): RatioInterval {
  const quadratic = meanA * meanA - t * t * varianceOfMeanA;
  if (quadratic <= 0) return { bounded: false, lower: null, upper: null };
  const linear = meanA * meanB;
  const constant = meanB * meanB - t * t * varianceOfMeanB;
  const discriminant = Math.max(0, linear * linear - quadratic * constant);
  const root = Math.sqrt(discriminant);
  return { bounded: true, lower: (linear - root) / quadratic, upper: (linear + root) / quadratic };
}
