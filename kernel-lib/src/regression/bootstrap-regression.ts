import { choleskyInPlace, choleskySolveInPlace } from "../statistics/linear-algebra";
import { createRandom } from "../statistics/random";
import { percentileInterval } from "../statistics/resampling";
import { createDrawer, planResample } from "../statistics/resampling";
import { counted, intervalWords } from "../statistics/reading";
import type { LeastSquaresFit } from "./least-squares";
import { RegressionError } from "./regression-error";
import type { RegressionStatement } from "./statement";

export interface BootstrapRegressionOptions {
  readonly seed: number | string;
  /** Default 2000. */
  readonly resamples?: number;
  readonly confidence?: number;
  /** Study of each row of the data (not only of the rows used): whole studies are drawn. */
  readonly clusters?: ArrayLike<string | number>;
  readonly onProgress?: (share: number) => void;
}

export interface BootstrapCoefficient {
  readonly name: string;
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
  /** Coefficient of each resample that could be fitted, in rising order. */
  readonly replicates: Float64Array;
}

export interface BootstrapRegression extends RegressionStatement {
  readonly coefficients: readonly BootstrapCoefficient[];
  readonly failedResamples: number;
  readonly confidence: number;
}

/**
 * Pairs bootstrap of a least-squares fit: rows (or whole studies) are drawn with replacement and the
 * coefficients fitted again; percentile intervals. The resampled systems are solved in the orthonormal
 * columns of the original fit, where they are well conditioned. A resample that does not determine the
 * coefficients is left out and counted.
 *
 * @throws RegressionError no_convergence when more than a tenth of the resamples cannot be fitted
 */
export function bootstrapRegression(fit: LeastSquaresFit, options: BootstrapRegressionOptions): BootstrapRegression {
  const resamples = options.resamples ?? 2000;
  const confidence = options.confidence ?? 0.95;
  const { n } = fit;
  const p = fit.names.length;
  const { q, inverseR, residuals } = fit.solution;
  const clusters = options.clusters;
  const plan = planResample(n, clusters === undefined ? {} : { clusters: Array.from(fit.rows, (i) => clusters[i]!) });
  const draw = createDrawer(plan, createRandom(options.seed).fork("pairs bootstrap"));
  // Products of the rows of Q and of residuals with Q, packed by row: a resample only adds them up.
  const width = (p * (p + 1)) / 2 + p;
  const packed = new Float64Array(n * width);
  for (let i = 0; i < n; i += 1) {
    let at = i * width;
    for (let j = 0; j < p; j += 1) for (let k = 0; k <= j; k += 1) packed[at++] = q[j]![i]! * q[k]![i]!;
    const e = residuals[i]! * Math.sqrt(fit.model.weights?.[i] ?? 1);
    for (let j = 0; j < p; j += 1) packed[at++] = q[j]![i]! * e;
  }
  const sums = new Float64Array(width);
  const counts = new Int32Array(n);
  const gram = new Float64Array(p * p);
  const shift = new Float64Array(p);
  const values = Array.from({ length: p }, () => new Float64Array(resamples));
  const stride = Math.ceil(resamples / 100);
  let kept = 0;
  for (let b = 0; b < resamples; b += 1) {
    const rows = draw();
    counts.fill(0);
    for (let i = 0; i < rows.length; i += 1) counts[rows[i]!] = counts[rows[i]!]! + 1;
    sums.fill(0);
    for (let i = 0; i < n; i += 1) {
      const times = counts[i]!;
      if (times !== 0) for (let k = 0, at = i * width; k < width; k += 1, at += 1) sums[k] = sums[k]! + times * packed[at]!;
    }
    let at = 0;
    for (let j = 0; j < p; j += 1) for (let k = 0; k <= j; k += 1) gram[j * p + k] = sums[at++]!;
    for (let j = 0; j < p; j += 1) shift[j] = sums[at++]!;
    if (choleskyInPlace(gram, p)) {
      choleskySolveInPlace(gram, p, shift);
      for (let j = 0; j < p; j += 1) {
        let value = fit.coefficients[j]!.estimate;
        for (let k = j; k < p; k += 1) value += inverseR[j]![k]! * shift[k]!;
        values[j]![kept] = value;
      }
      kept += 1;
    }
    if (options.onProgress !== undefined && ((b + 1) % stride === 0 || b + 1 === resamples)) options.onProgress((b + 1) / resamples);
  }
  if (kept < 0.9 * resamples) throw new RegressionError("no_convergence", `${resamples - kept} of ${resamples} resamples do not determine the coefficients: expected more rows or studies for each column`);
  const coefficients = fit.coefficients.map((c, j) => {
    const replicates = values[j]!.subarray(0, kept).sort();
    const mean = replicates.reduce((s, v) => s + v, 0) / kept;
    const { lower, upper } = percentileInterval(replicates, confidence);
    return { name: c.name, estimate: c.estimate, standardError: Math.sqrt(replicates.reduce((s, v) => s + (v - mean) ** 2, 0) / (kept - 1)), lower, upper, replicates };
  });
  return {
    coefficients, failedResamples: resamples - kept, confidence, n, setAside: fit.setAside,
    method: `Pairs bootstrap of least squares, percentile intervals, ${resamples} resamples of ${plan.clustered ? `${plan.units.length} clusters` : "rows"}, seed ${String(options.seed)}`,
    assumptions: [plan.clustered ? "clusters are independent draws" : "rows are independent draws", "the mean of y is linear in the columns"],
    warnings: [
      ...(plan.units.length < 10 ? [`Only ${plan.units.length} units to draw from: bootstrap intervals come out too narrow below about 10 (common practice, no source)`] : []),
      ...(kept < resamples ? [`${resamples - kept} resamples did not determine the coefficients and are left out`] : []),
    ],
    reading: `${coefficients.map((c) => `${c.name}: ${intervalWords(c.lower, c.upper, confidence)}`).join("; ")} (pairs bootstrap, ${counted(n, "row")}).`,
  };
}
