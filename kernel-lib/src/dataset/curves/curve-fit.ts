/** A fitted parameter with its standard error of the logarithm and its interval. */
export interface FittedParameter {
  readonly name: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** A curve fitted by least squares. */
export interface CurveFit {
  readonly parameters: ReadonlyArray<FittedParameter>;
  readonly residualSd: number;
  readonly n: number;
  readonly iterations: number;
}

/**
 * Least squares of a law with positive parameters, on their logarithms (Levenberg-Marquardt, central differences).
 * Intervals are 95 % from the linearised covariance and Student's t. Readings of one record follow each other closely, so that
 * the true uncertainty is larger: the scatter between specimens is what counts for a series.
 * @throws RangeError when there are not at least three readings more than parameters, or the fit does not settle
 */
export function fitPositive(names: ReadonlyArray<string>, start: ReadonlyArray<number>, law: (slip: number, parameters: ReadonlyArray<number>) => number, slips: Float64Array, stresses: Float64Array): CurveFit {
  const [n, k] = [slips.length, names.length];
  if (n < k + 3) throw new RangeError(`a fit of ${String(k)} parameters needs ${String(k + 3)} readings: got ${String(n)}`);
  const residuals = (logs: ReadonlyArray<number>): Float64Array => {
    const parameters = logs.map(Math.exp);
    return stresses.map((stress, i) => stress - law(slips[i] ?? NaN, parameters));
  };
  const sumOf = (values: Float64Array): number => values.reduce((a, b) => a + b * b, 0);
  let logs = start.map(Math.log);
  let current = residuals(logs);
  let damping = 1e-3;
  let iterations = 0;
  let settled = false;
  while (iterations < 200 && !settled) {
    iterations += 1;
    const { normal, gradient } = normalEquations(logs, residuals, current);
    settled = true;
    for (let attempt = 0; attempt < 30; attempt += 1) {
      const damped = normal.map((row, i) => row.map((value, j) => (i === j ? value * (1 + damping) + 1e-14 : value)));
      const step = solve(damped, gradient);
      const tried = step === null ? null : logs.map((value, i) => value + Math.max(-1, Math.min(1, step[i] ?? 0)));
      const next = tried === null ? null : residuals(tried);
      if (tried !== null && next !== null && sumOf(next) < sumOf(current)) {
        settled = sumOf(current) - sumOf(next) < 1e-12 * sumOf(current);
        [logs, current, damping] = [tried, next, Math.max(1e-12, damping / 5)];
        break;
      }
      damping *= 4;
    }
  }
  if (!settled) throw new RangeError("the fit did not settle in 200 steps: expected a curve of the law's shape");
  const variance = sumOf(current) / (n - k);
  const { normal } = normalEquations(logs, residuals, current);
  const t = studentT975(n - k);
  return {
    parameters: names.map((name, i) => {
      const column = solve(normal, names.map((_, j) => (i === j ? 1 : 0)));
      const error = column === null ? Infinity : Math.sqrt(Math.max(0, variance * (column[i] ?? NaN)));
      const log = logs[i] ?? NaN;
      return { name, value: Math.exp(log), low: Math.exp(log - t * error), high: Math.exp(log + t * error) };
    }),
    residualSd: Math.sqrt(variance), n, iterations,
  };
}

function normalEquations(logs: ReadonlyArray<number>, residuals: (logs: ReadonlyArray<number>) => Float64Array, current: Float64Array): { normal: number[][]; gradient: number[] } {
  const slopes = logs.map((_, i) => {
    const moved = (by: number): Float64Array => residuals(logs.map((value, j) => (i === j ? value + by : value)));
    const [up, down] = [moved(1e-6), moved(-1e-6)];
    return up.map((value, r) => ((down[r] ?? NaN) - value) / 2e-6);
  });
  const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, value, i) => sum + value * (b[i] ?? NaN), 0);
  return { normal: slopes.map((a) => slopes.map((b) => dot(a, b))), gradient: slopes.map((a) => dot(a, current)) };
}

/** Gaussian elimination with pivoting; null for a singular matrix. */
function solve(matrix: ReadonlyArray<ReadonlyArray<number>>, right: ReadonlyArray<number>): number[] | null {
  const rows = matrix.map((row, i) => [...row, right[i] ?? NaN]);
  const n = rows.length;
  for (let c = 0; c < n; c += 1) {
    let pivot = c;
    for (let r = c + 1; r < n; r += 1) if (Math.abs(rows[r]?.[c] ?? 0) > Math.abs(rows[pivot]?.[c] ?? 0)) pivot = r;
    const top = rows[pivot];
    const swapped = rows[c];
    if (top === undefined || swapped === undefined || !(Math.abs(top[c] ?? 0) > 1e-300)) return null;
    [rows[c], rows[pivot]] = [top, swapped];
    for (let r = 0; r < n; r += 1) {
      const row = rows[r];
      if (r === c || row === undefined) continue;
      const factor = (row[c] ?? NaN) / (top[c] ?? NaN);
      for (let j = c; j <= n; j += 1) row[j] = (row[j] ?? NaN) - factor * (top[j] ?? NaN);
    }
  }
  return rows.map((row, i) => (row[n] ?? NaN) / (row[i] ?? NaN));
}

/** 97.5 % quantile of Student's t for 3 degrees of freedom or more, by Abramowitz and Stegun 26.7.5 (within 0.3 % at 3, 1e-6 above 20). */
export function studentT975(degrees: number): number {
  const x = 1.959963984540054;
  const d = degrees;
  return x + (x ** 3 + x) / (4 * d) + (5 * x ** 5 + 16 * x ** 3 + 3 * x) / (96 * d ** 2) + (3 * x ** 7 + 19 * x ** 5 + 17 * x ** 3 - 15 * x) / (384 * d ** 3)
    + (79 * x ** 9 + 776 * x ** 7 + 1482 * x ** 5 - 1920 * x ** 3 - 945 * x) / (92160 * d ** 4);
}
