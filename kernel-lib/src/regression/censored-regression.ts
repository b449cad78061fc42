import { informationAt, clusterSandwich } from "../statistics/censoring/censored-information";
import {
  maximiseCensored,
  NoMaximumError,
  type CensoredRows,
} from "../statistics/censoring/censored-likelihood";
import { lawOf, type CensoredDistribution } from "../statistics/censoring/location-scale-law";
import { counted, intervalWords, pWords, significant } from "../statistics/reading";
import { requireShare } from "./bands";
import { coefficientTable, type Coefficient } from "./coefficient-table";
import { isTold, signed } from "./least-squares-reading";
import { blankLabel, namedCoefficient } from "./least-squares";
import { gatherNewColumns, gatherRows, INTERCEPT, type NumericColumn } from "./model-rows";
import { multiply, solveOrthogonally } from "./orthogonal-solve";
import { loneCluster, loneClusterWords } from "./lone-cluster";
import { RegressionError } from "./regression-error";
import { setAsideWords, type RegressionStatement } from "./statement";

export interface CensoredRegressionInput {
  readonly y: NumericColumn;
  /** True where y is only a lower bound. */
  readonly censored: ArrayLike<boolean | number>;
  readonly columns: Readonly<Record<string, NumericColumn>>;
  readonly intercept?: boolean;
  /** Law of y given the columns; default "normal" (Tobit). Lognormal and Weibull model ln y. */
  readonly distribution?: CensoredDistribution;
  /** Series or study of each row, for cluster-robust standard errors. */
  readonly clusters?: ArrayLike<string | number>;
  readonly confidence?: number;
  readonly response?: string;
}

export interface CensoredRegression extends RegressionStatement {
  readonly distribution: CensoredDistribution;
  readonly names: readonly string[];
  readonly coefficients: readonly Coefficient[];
  /** Scale of the law: residual SD of y (normal) or of ln y (lognormal), 1 / shape (Weibull). */
  readonly scale: number;
  readonly logScaleStandardError: number;
  /** Covariance of (coefficients, ln scale), by rows. */
  readonly covariance: readonly Float64Array[];
  /** ln L in the units of y. */
  readonly logLikelihood: number;
  readonly failures: number;
  readonly censoredCount: number;
  coefficient(name: string): Coefficient;
  /** Fitted quantile at probability p (default the median) at new rows, in the units of y. */
  quantile(columns: Readonly<Record<string, NumericColumn>>, p?: number): Float64Array;
}

/**
 * Regression with right-censored values (Tobit for the normal): y, or ln y, = x b + scale Z, where
 * a censored row adds ln P(Y > y). Maximum likelihood by Newton's method in concave parameters;
 * standard errors from the observed information, or cluster-robust; normal quantiles (t on clusters
 * - 1 with clusters).
 *
 * @throws RegressionError too_few_failures, not_positive, no_convergence, one_study, exact_leverage
 *   (a cluster that fixes a coefficient alone); RankDeficientError
 * @example
 * censoredRegression({ y: load, censored, columns: { embedment_mm }, distribution: "lognormal" })
 */
export function censoredRegression(input: CensoredRegressionInput): CensoredRegression {
  const distribution = input.distribution ?? "normal";
  const confidence = requireShare(input.confidence ?? 0.95, "confidence");
  for (const [name, column] of [
    ["censoring flags", input.censored],
    ["clusters", input.clusters],
  ] as const) {
    if (column !== undefined && column.length !== input.y.length)
      throw new RegressionError(
        "unequal_lengths",
        `The ${name} have ${column.length} rows, expected ${input.y.length} as in y`,
      );
  }
  const law = lawOf(distribution);
  const model = gatherRows(
    input.clusters === undefined ? input : { ...input, reject: blankLabel(input.clusters) },
  );
  const bad = law.onLogs ? model.y.findIndex((value) => value <= 0) : -1;
  if (bad >= 0)
    throw new RegressionError(
      "not_positive",
      `y of row ${model.rows[bad]!} is ${model.y[bad]!}: the ${distribution} law needs values above 0`,
    );
  const p = model.columns.length;
  const censored = Uint8Array.from(model.rows, (i) => (input.censored[i] ? 1 : 0));
  const failures = censored.reduce((count, c) => count + 1 - c, 0);
  if (failures < p + 1)
    throw new RegressionError(
      "too_few_failures",
      `The model has ${p} coefficients and a scale, and only ${failures} of ${model.n} rows are failures: expected at least ${p + 1}`,
    );
  const y = law.onLogs ? model.y.map(Math.log) : model.y;
  // Start and conditioning from least squares on all rows; also names dependent columns.
  const start = solveOrthogonally(model.columns, y, model.names);
  const sigma = Math.sqrt(start.residualSumOfSquares / model.n);
  if (!(sigma > 0))
    throw new RegressionError(
      "no_convergence",
      "The columns fit every value exactly: expected some scatter",
    );
  const rows: CensoredRows = { y, censored, columns: model.columns };
  const { maximum, information } = fitRows(
    rows,
    law,
    start.q,
    start.inverseR,
    start.estimates,
    sigma,
  );
  const clusters =
    input.clusters === undefined ? null : Array.from(model.rows, (i) => input.clusters![i]!);
  if (clusters !== null && new Set(clusters).size < 2)
    throw new RegressionError(
      "one_study",
      "Cluster-robust standard errors need at least 2 clusters: got 1",
    );
  const lone = clusters === null ? null : loneCluster(start.q, clusters);
  if (lone !== null) throw new RegressionError("exact_leverage", loneClusterWords(lone));
  const robust = clusters === null ? null : clusterSandwich(information, clusters);
  const flat = robust?.covariance ?? information.covariance;
  const covariance = Array.from({ length: p + 1 }, (_, i) =>
    flat.slice(i * (p + 1), (i + 1) * (p + 1)),
  );
  const coefficients = coefficientTable(
    model.names,
    maximum.coefficients,
    { covariance, degreesOfFreedom: robust === null ? Infinity : robust.count - 1 },
    confidence,
  );
  const response = law.onLogs ? `ln ${input.response ?? "y"}` : (input.response ?? "y");
  const slopes = coefficients.filter((c) => c.name !== INTERCEPT);
  const basis = `${counted(model.n, "row")}, ${model.n - failures} of them only lower bounds${setAsideWords(model.excluded)}`;
  const words = (c: Coefficient): string =>
    `${isTold(c) ? `${signed(c.estimate)} per unit of ${c.name}` : `the sign for ${c.name} is not established`} (${intervalWords(c.lower, c.upper, confidence)}, ${pWords(c.p)})`;
  return {
    distribution,
    names: model.names,
    coefficients,
    scale: maximum.sigma,
    logScaleStandardError: Math.sqrt(covariance[p]![p]!),
    covariance,
    failures,
    censoredCount: model.n - failures,
    logLikelihood: law.onLogs
      ? y.reduce((sum, value, i) => sum - (censored[i] === 1 ? 0 : value), maximum.logLikelihood)
      : maximum.logLikelihood,
    method: `Censored regression, right-censored ${distribution}${distribution === "normal" ? " (Tobit)" : ""}, maximum likelihood${robust === null ? "" : `, cluster-robust (${robust.count} clusters)`}`,
    assumptions: [
      `${response} is linear in the columns with one scale`,
      "the reason for stopping a test early is independent of the load it would have reached",
      robust === null
        ? "rows are independent (series effect ignored)"
        : "clusters are independent (series effect included)",
    ],
    n: model.n,
    excluded: model.excluded,
    warnings: [
      ...(failures < 5 * (p + 1)
        ? [
            `${failures} failures for ${p + 1} parameters: large-sample intervals are too narrow (common practice, no source)`,
          ]
        : []),
      ...(robust !== null && robust.count < 10
        ? [
            `Only ${robust.count} clusters: cluster-robust standard errors are known to be too small below about 10 (common practice, no source)`,
          ]
        : []),
    ],
    reading:
      slopes.length === 0
        ? `The location of ${response} is ${significant(coefficients[0]!.estimate)} (${basis}).`
        : `With lower bounds treated as censored, ${response} changes by ${slopes.map(words).join("; ")}; scale ${significant(maximum.sigma)} (${basis}).`,
    coefficient: (name) => namedCoefficient(coefficients, name),
    quantile: (columns, probability = 0.5) => {
      const shift = maximum.sigma * law.quantile(probability);
      return multiply(gatherNewColumns(model.names, columns), maximum.coefficients).map((value) =>
        law.onLogs ? Math.exp(value + shift) : value + shift,
      );
    },
  };
}

/**
 * Searches in the orthonormal columns Q, where the problem is well conditioned, then turns back to
 * X.
 */
function fitRows(
  rows: CensoredRows,
  law: ReturnType<typeof lawOf>,
  q: readonly Float64Array[],
  inverseR: readonly Float64Array[],
  start: Float64Array,
  sigma: number,
): { maximum: ReturnType<typeof maximiseCensored>; information: ReturnType<typeof informationAt> } {
  try {
    const root = Math.sqrt(rows.y.length);
    const orthonormal = { ...rows, columns: q.map((column) => column.map((v) => v * root)) };
    const beginning = q.map(
      (column) => column.reduce((sum, v, i) => sum + v * multiplyRow(rows, start, i), 0) / root,
    );
    const at = maximiseCensored(orthonormal, law, { coefficients: beginning, sigma });
    const turned = informationAt(orthonormal, law, at);
    const p = q.length;
    const size = p + 1;
    // b = sqrt(n) R^-1 c, the same map for the covariance; the scores turn by its inverse
    // transpose, i.e. they are those of X.
    const map = (i: number, k: number): number =>
      i === p || k === p ? (i === k ? 1 : 0) : root * inverseR[i]![k]!;
    const covariance = new Float64Array(size * size);
    for (let i = 0; i < size; i += 1)
      for (let j = 0; j < size; j += 1) {
        let sum = 0;
        for (let k = 0; k < size; k += 1)
          for (let l = 0; l < size; l += 1)
            sum += map(i, k) * turned.covariance[k * size + l]! * map(j, l);
        covariance[i * size + j] = sum;
      }
    const coefficients = Float64Array.from({ length: p }, (_, i) =>
      at.coefficients.reduce((sum, c, k) => sum + map(i, k) * c, 0),
    );
    const maximum = { ...at, coefficients };
    return {
      maximum,
      information: { covariance, scores: informationAt(rows, law, maximum).scores },
    };
  } catch (error) {
    if (error instanceof NoMaximumError) throw new RegressionError("no_convergence", error.message);
    throw error;
  }
}

function multiplyRow(rows: CensoredRows, b: Float64Array, i: number): number {
  return rows.columns.reduce((sum, column, j) => sum + column[i]! * b[j]!, 0);
}
