/** Resistance and load effect by their means and coefficients of variation. */
export interface LognormalPair {
  readonly resistanceMean: number;
  readonly resistanceCov: number;
  readonly loadMean: number;
  readonly loadCov: number;
}

/**
 * Reliability index of a log-normal resistance R against a log-normal load effect Q, independent:
 * β = ln[(R̄/Q̄) √((1 + V_Q²)/(1 + V_R²))] / √ln[(1 + V_R²)(1 + V_Q²)]. Exact.
 * @throws RangeError for means or coefficients of variation that are not positive
 * @example
 * lognormalReliabilityIndex({ resistanceMean: 2, resistanceCov: 0.15, loadMean: 1, loadCov: 0.2 })
 */
export function lognormalReliabilityIndex(pair: LognormalPair): number {
  const { resistanceMean, resistanceCov, loadMean, loadCov } = requirePair(
    "lognormalReliabilityIndex",
    pair,
  );
  const [r, q] = [Math.log1p(resistanceCov ** 2), Math.log1p(loadCov ** 2)];
  return (Math.log(resistanceMean / loadMean) + 0.5 * (q - r)) / Math.sqrt(r + q);
}

/** Mean and coefficient of variation of a sum of independent loads. */
export function sumOfLoads(loads: readonly { readonly mean: number; readonly cov: number }[]): {
  mean: number;
  cov: number;
} {
  const mean = loads.reduce((sum, one) => sum + one.mean, 0);
  return { mean, cov: Math.hypot(...loads.map((one) => one.mean * one.cov)) / mean };
}

/**
 * Resistance factor for a target index with log-normal resistance and load effect: φ = λ_R (Σγ_i
 * r_i)/(Σλ_i r_i) f, with first-order f = exp(−β √(V_R² + V_Q²)), or exact f = √[(1 + V_Q²)/(1 +
 * V_R²)] exp(−β √ln[(1 + V_R²)(1 + V_Q²)]).
 * @param bias λ_R and `cov` V_R
 * @param factored Σγ_i r_i, the factored load, and `load` mean and V_Q of the load effect for the
 *   same nominal loads
 * @example
 * lognormalResistanceFactor({ bias: 1.1, cov: 0.15 }, 1.4, { mean: 1.025, cov: 0.102 }, 3.5, "exact")
 */
export function lognormalResistanceFactor(
  resistance: { readonly bias: number; readonly cov: number },
  factored: number,
  load: { readonly mean: number; readonly cov: number },
  targetIndex: number,
  form: "exact" | "first order" = "exact",
): number {
  requirePair("lognormalResistanceFactor", {
    resistanceMean: resistance.bias,
    resistanceCov: resistance.cov,
    loadMean: load.mean,
    loadCov: load.cov,
  });
  const base = (resistance.bias * factored) / load.mean;
  if (form === "first order")
    return base * Math.exp(-targetIndex * Math.hypot(resistance.cov, load.cov));
  const [r, q] = [Math.log1p(resistance.cov ** 2), Math.log1p(load.cov ** 2)];
  return base * Math.exp(0.5 * (q - r) - targetIndex * Math.sqrt(r + q));
}

function requirePair(where: string, pair: LognormalPair): LognormalPair {
  for (const [name, value] of Object.entries(pair))
    if (!(value > 0 && Number.isFinite(value)))
      throw new RangeError(`${where}: ${name} is ${value}, expected a positive number`);
  return pair;
}
