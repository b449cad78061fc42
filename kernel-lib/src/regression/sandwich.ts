import { loneCluster, loneClusterWords } from "./lone-cluster";
import { RegressionError } from "./regression-error";
import { unscaledCovariance, type OrthogonalSolution } from "./orthogonal-solve";

/**
 * How the standard errors of the coefficients are made.
 * - `classical`: s^2 (X'WX)^-1, the same scatter in all rows.
 * - `hc3`: each squared residual over (1 - leverage)^2; holds when the scatter differs from row to
 *   row.
 * - `clusters`: residuals summed within each study before squaring; holds when rows of a study
 *   share an error.
 */
export type StandardErrorMethod =
  "classical" | "hc3" | { readonly clusters: ArrayLike<string | number> };

/** A covariance matrix of coefficients with the degrees of freedom its t-values take. */
export interface CoefficientCovariance {
  readonly covariance: readonly Float64Array[];
  readonly degreesOfFreedom: number;
}

/** s^2 (X'WX)^-1 on n - p degrees of freedom. */
export function classicalCovariance(solution: OrthogonalSolution): CoefficientCovariance {
  const df = solution.degreesOfFreedom;
  const variance = solution.residualSumOfSquares / df;
  return {
    covariance: unscaledCovariance(solution.inverseR).map((row) =>
      row.map((value) => value * variance),
    ),
    degreesOfFreedom: df,
  };
}

/**
 * HC3 of MacKinnon and White (1985): B diag(e_i^2 / (1 - h_i)^2) B' with B = (X'WX)^-1 X' W^(1/2).
 *
 * @throws RegressionError exact_leverage when one row fixes a coefficient alone (h = 1)
 */
export function hc3Covariance(
  solution: OrthogonalSolution,
  weights: Float64Array | null,
): CoefficientCovariance {
  const scores = solution.residuals.map((e, i) => {
    const slack = 1 - solution.leverage[i]!;
    if (slack < 1e-10) {
      throw new RegressionError(
        "exact_leverage",
        `Usable row ${i} alone determines a coefficient (leverage ${solution.leverage[i]!.toFixed(6)}): HC3 standard errors require a leverage below 1 for every row`,
      );
    }
    return (e * Math.sqrt(weights?.[i] ?? 1)) / slack;
  });
  const influence = influenceColumns(solution);
  const covariance = crossProduct(influence.map((column) => column.map((b, i) => b * scores[i]!)));
  return { covariance, degreesOfFreedom: solution.degreesOfFreedom };
}

/**
 * Cluster-robust covariance (Liang and Zeger 1986) with the finite-sample factor
 * G/(G-1) (n-1)/(n-p), and t on G - 1 degrees of freedom, G clusters.
 *
 * @param clusters label of each usable row
 * @throws RegressionError one_study for fewer than two clusters, exact_leverage where one cluster
 *   fixes a coefficient alone ({@link loneCluster})
 */
export function clusterCovariance(
  solution: OrthogonalSolution,
  weights: Float64Array | null,
  clusters: readonly (string | number)[],
): CoefficientCovariance {
  const n = solution.residuals.length;
  const index = new Map<string | number, number>();
  for (const label of clusters) if (!index.has(label)) index.set(label, index.size);
  const count = index.size;
  if (count < 2)
    throw new RegressionError(
      "one_study",
      `Cluster-robust standard errors need at least 2 clusters: got ${count}`,
    );
  const lone = loneCluster(solution.q, clusters);
  if (lone !== null) throw new RegressionError("exact_leverage", loneClusterWords(lone));
  const sums = influenceColumns(solution).map((column) => {
    const sum = new Float64Array(count);
    for (let i = 0; i < n; i += 1) {
      const g = index.get(clusters[i]!)!;
      sum[g] = sum[g]! + column[i]! * solution.residuals[i]! * Math.sqrt(weights?.[i] ?? 1);
    }
    return sum;
  });
  const factor = (count / (count - 1)) * ((n - 1) / solution.degreesOfFreedom);
  return {
    covariance: crossProduct(sums).map((row) => row.map((value) => value * factor)),
    degreesOfFreedom: count - 1,
  };
}

/** Columns of B' = Q R^-T, so that b = B (W^(1/2) y). */
function influenceColumns(solution: OrthogonalSolution): Float64Array[] {
  return solution.inverseR.map((row) => {
    const column = new Float64Array(solution.residuals.length);
    solution.q.forEach((q, k) => {
      const factor = row[k]!;
      if (factor !== 0)
        for (let i = 0; i < column.length; i += 1) column[i] = column[i]! + factor * q[i]!;
    });
    return column;
  });
}

function crossProduct(columns: readonly Float64Array[]): Float64Array[] {
  return columns.map((left) =>
    Float64Array.from(columns, (right) => {
      let sum = 0;
      for (let i = 0; i < left.length; i += 1) sum += left[i]! * right[i]!;
      return sum;
    }),
  );
}
