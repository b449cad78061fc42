import { inversePositiveDefinite } from "../linear-algebra";
import { NoMaximumError, type CensoredMaximum, type CensoredRows } from "./censored-likelihood";
import type { LocationScaleLaw } from "./location-scale-law";

/**
 * Covariance of (b, ln sigma) at the maximum from the observed information, and each row's score
 * there: the pieces of the sandwich.
 */
export interface CensoredInformation {
  /** (p + 1) x (p + 1) by rows. */
  readonly covariance: Float64Array;
  /** One array a parameter, each as long as the rows. */
  readonly scores: readonly Float64Array[];
}

/** @throws NoMaximumError when the information is singular */
export function informationAt(
  rows: CensoredRows,
  law: LocationScaleLaw,
  at: CensoredMaximum,
): CensoredInformation {
  const { y, censored, columns } = rows;
  const p = columns.length;
  const size = p + 1;
  const out = new Float64Array(3);
  const information = new Float64Array(size * size);
  const scores = Array.from({ length: size }, () => new Float64Array(y.length));
  const slope = new Float64Array(size);
  for (let i = 0; i < y.length; i += 1) {
    let z = y[i]!;
    for (let j = 0; j < p; j += 1) z -= at.coefficients[j]! * columns[j]![i]!;
    z /= at.sigma;
    const failed = censored[i] !== 1;
    if (failed) law.density(z, out);
    else law.survival(z, out);
    const first = out[1]!;
    const second = out[2]!;
    // dz/db = -x / sigma, dz/d(ln sigma) = -z.
    for (let j = 0; j < size; j += 1) slope[j] = j < p ? -columns[j]![i]! / at.sigma : -z;
    for (let j = 0; j < size; j += 1) {
      scores[j]![i] = first * slope[j]! - (failed && j === p ? 1 : 0);
      for (let k = 0; k < size; k += 1) {
        // d2z: with ln sigma, -dz/db for the mixed terms and +z for ln sigma twice.
        const bend = j === p && k === p ? z : j === p ? -slope[k]! : k === p ? -slope[j]! : 0;
        information[j * size + k] =
          information[j * size + k]! - (second * slope[j]! * slope[k]! + first * bend);
      }
    }
  }
  const covariance = inversePositiveDefinite(information, size);
  if (covariance === null)
    throw new NoMaximumError(
      "The information at the maximum of the censored likelihood is singular: the rows do not determine all parameters",
    );
  return { covariance, scores };
}

/**
 * Cluster-robust covariance A^-1 (sum of s_g s_g') A^-1 G / (G - 1), s_g the score summed over
 * cluster g.
 *
 * @param clusters label of each row
 * @throws RangeError for fewer than two clusters
 */
export function clusterSandwich(
  information: CensoredInformation,
  clusters: readonly (string | number)[],
): { covariance: Float64Array; count: number } {
  const size = information.scores.length;
  const sums = new Map<string | number, Float64Array>();
  clusters.forEach((label, i) => {
    const sum = sums.get(label) ?? new Float64Array(size);
    for (let j = 0; j < size; j += 1) sum[j] = sum[j]! + information.scores[j]![i]!;
    sums.set(label, sum);
  });
  const count = sums.size;
  if (count < 2)
    throw new RangeError(`Cluster-robust standard errors need at least 2 clusters: got ${count}`);
  const covariance = new Float64Array(size * size);
  for (const sum of sums.values()) {
    const moved = new Float64Array(size);
    for (let j = 0; j < size; j += 1)
      for (let k = 0; k < size; k += 1)
        moved[j] = moved[j]! + information.covariance[j * size + k]! * sum[k]!;
    for (let j = 0; j < size; j += 1)
      for (let k = 0; k < size; k += 1)
        covariance[j * size + k] =
          covariance[j * size + k]! + (moved[j]! * moved[k]! * count) / (count - 1);
  }
  return { covariance, count };
}
