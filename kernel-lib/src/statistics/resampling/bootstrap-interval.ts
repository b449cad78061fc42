import { normal } from "../distributions/normal";

/** An interval, and what was taken to make it. */
export interface BootstrapInterval {
  readonly lower: number;
  readonly upper: number;
  /** Bias correction z0 (BCa only). */
  readonly biasCorrection: number | null;
  /** Acceleration a (BCa only). */
  readonly acceleration: number | null;
}

/**
 * Quantile of sorted replicates at probability p: interpolated between order statistics at (B + 1)
 * p (type 6), the least or greatest replicate beyond the ends.
 */
export function replicateQuantile(sorted: Float64Array, p: number): number {
  const position = (sorted.length + 1) * p - 1;
  if (position <= 0) return sorted[0]!;
  if (position >= sorted.length - 1) return sorted[sorted.length - 1]!;
  const low = Math.floor(position);
  return sorted[low]! + (position - low) * (sorted[low + 1]! - sorted[low]!);
}

/** Percentile interval: the (1 - confidence) / 2 quantile of the replicates at each end. */
export function percentileInterval(sorted: Float64Array, confidence: number): BootstrapInterval {
  return {
    lower: replicateQuantile(sorted, (1 - confidence) / 2),
    upper: replicateQuantile(sorted, (1 + confidence) / 2),
    biasCorrection: null,
    acceleration: null,
  };
}

/**
 * BCa interval (Efron 1987): quantiles at Phi(z0 + (z0 + z) / (1 - a (z0 + z))), with
 * z0 = Phi^-1(share of replicates below the observed value, ties counted half) and
 * a = sum L^3 / (6 (sum L^2)^(3/2)), L the influence of each unit.
 *
 * @returns null where it is not defined: every replicate on one side of the observed value,
 *   or an influence that cannot be told
 */
export function bcaInterval(
  sorted: Float64Array,
  observed: number,
  influence: Float64Array,
  confidence: number,
): BootstrapInterval | null {
  let below = 0;
  for (let i = 0; i < sorted.length && sorted[i]! <= observed; i += 1)
    below += sorted[i]! < observed ? 1 : 0.5;
  const share = below / sorted.length;
  if (share <= 0 || share >= 1) return null;
  const law = normal();
  const biasCorrection = law.quantile(share);
  let cubes = 0;
  let squares = 0;
  for (let i = 0; i < influence.length; i += 1) {
    cubes += influence[i]! ** 3;
    squares += influence[i]! ** 2;
  }
  const acceleration = squares === 0 ? 0 : cubes / (6 * squares ** 1.5);
  const at = (z: number): number => {
    const moved = biasCorrection + z;
    return replicateQuantile(sorted, law.cdf(biasCorrection + moved / (1 - acceleration * moved)));
  };
  if (!Number.isFinite(acceleration)) return null;
  const z = law.quantile((1 + confidence) / 2);
  return { lower: at(-z), upper: at(z), biasCorrection, acceleration };
}

/**
 * Jackknife influence L_i = (n_s - 1) (mean of the leave-one-out values - leave-one-out value i),
 * within stratum s.
 *
 * @param leftOut value of the statistic without each unit
 * @param strata unit indices of each stratum
 */
export function jackknifeInfluence(
  leftOut: Float64Array,
  strata: readonly Int32Array[],
): Float64Array {
  const influence = new Float64Array(leftOut.length);
  for (const stratum of strata) {
    let mean = 0;
    for (const u of stratum) mean += leftOut[u]! / stratum.length;
    for (const u of stratum) influence[u] = (stratum.length - 1) * (mean - leftOut[u]!);
  }
  return influence;
}
