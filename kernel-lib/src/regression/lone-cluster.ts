/** Slack of the leverage of a cluster below which it counts as 1; that of `hc3Covariance`. */
const SLACK = 1e-10;

/**
 * The first cluster without which a coefficient is not defined, such as the only series of one
 * class or at one of two diameters; null where there is none.
 *
 * The residuals of such a cluster sum to zero along that coefficient whatever its error is, so that
 * a cluster-robust variance leaves its error out: near 0, with p near 0 and an interval of hardly
 * any width. It is found as an eigenvalue 1 of Q_gᵀQ_g, Q_g the rows of the cluster in an
 * orthonormal basis of the model's columns: I − Q_gᵀQ_g has no Cholesky factor.
 */
export function loneCluster(
  q: readonly ArrayLike<number>[],
  clusters: readonly (string | number)[],
): string | number | null {
  const rows = new Map<string | number, number[]>();
  clusters.forEach((label, i) => {
    const own = rows.get(label);
    if (own === undefined) rows.set(label, [i]);
    else own.push(i);
  });
  for (const [label, own] of rows) if (isSingular(slackOf(q, own))) return label;
  return null;
}

function slackOf(q: readonly ArrayLike<number>[], rows: readonly number[]): number[][] {
  return q.map((left, j) =>
    q.map((right, k) => rows.reduce((sum, i) => sum - left[i]! * right[i]!, j === k ? 1 : 0)),
  );
}

/** Cholesky's factorization in place; true where a pivot is no longer above the slack. */
function isSingular(matrix: number[][]): boolean {
  for (let j = 0; j < matrix.length; j += 1) {
    const pivot =
      matrix[j]![j]! - matrix[j]!.slice(0, j).reduce((sum, value) => sum + value * value, 0);
    if (pivot < SLACK) return true;
    const root = Math.sqrt(pivot);
    matrix[j]![j] = root;
    for (let i = j + 1; i < matrix.length; i += 1) {
      matrix[i]![j] =
        (matrix[i]![j]! -
          matrix[j]!.slice(0, j).reduce((sum, value, k) => sum + value * matrix[i]![k]!, 0)) /
        root;
    }
  }
  return false;
}

/** What is missing where a cluster fixes a coefficient alone. */
export function loneClusterWords(label: string | number): string {
  return `Cluster "${label}" alone determines a coefficient: without it the columns of the model are not independent, and cluster-robust standard errors would omit its error. Expected at least 2 clusters in each class and at each end of each column`;
}
