import { NoMaximumError } from "../censoring/censored-likelihood";
import { lawOf } from "../censoring/location-scale-law";
import { ALL_BUT_EQUAL } from "./all-but-equal";
import { weightedOver } from "./correlation-weights";
import type { FitAtCorrelation } from "./fit-at-correlation";
import { boundOfMixture } from "./mixture-bound";

/** Values along a variable, in series, and the band that is asked for. */
export interface LineBySeriesInput {
  readonly y: readonly number[];
  readonly x: readonly number[];
  readonly series: readonly (string | number)[];
  /** Values of the variable at which the band is wanted. */
  readonly grid: readonly number[];
  readonly fractile: number;
  readonly confidence: number;
}

/** One series by its means and its sums about them. */
interface SeriesAlong {
  n: number;
  x: number;
  y: number;
  xx: number;
  xy: number;
  yy: number;
}

/**
 * Lower bound of a fractile along a straight line, for a further test of a further series:
 * y_ij = a + m x_ij + b_i + e_ij, b_i ~ N(0, ρ σ²) one a series, e_ij ~ N(0, (1 − ρ) σ²) one a test; sought is L(x) with P(a + m x − z σ ≥ L) = confidence.
 *
 * As `characteristicBySeries` with a line in place of a mean. For a known ρ, with w_i = n_i/(1 + (n_i − 1) ρ), the generalised least squares line has the error of
 * n'(x) = 1/(1/Σw + (x − x̄_w)²/S) independent tests, S = Σ w_i (x̄_i − x̄_w)² + Σ (x_ij − x̄_i)²/(1 − ρ), and its scatter n − 2 degrees of freedom: the exact factor.
 * Over ρ these laws are mixed by the likelihood with a, m and σ integrated out and the same vague prior. One test a series gives the ordinary tolerance band of least squares.
 *
 * Limits: no lower bounds; the same scatter along the line. Simulated coverage for 90 %, both ends and between, correlations of 0 to 0.9: 88 to 95 % with 6 to
 * 22 series, more only where 3 to 5 series hardly differ (600 samples each, standard error 1.2 %).
 * @throws RangeError for columns of different length, or fewer than 3 values or 2 different x
 * @throws NoMaximumError where all values lie on the line, or those of each series on a line of its own
 * @example lineBySeries({ y: logs, x: sizes.map(Math.log), series, grid: [Math.log(16)], fractile: 0.05, confidence: 0.9 })
 */
export function lineBySeries({ y, x, series, grid, fractile, confidence }: LineBySeriesInput): number[] {
  const n = y.length;
  if (x.length !== n || series.length !== n) throw new RangeError(`lineBySeries: ${n} values, ${x.length} of the variable and ${series.length} names of series, expected as many of each`);
  if (n < 3 || new Set(x).size < 2) throw new RangeError(`lineBySeries: ${n} values at ${new Set(x).size} of the variable, expected at least 3 at 2`);
  const mean = (of: readonly number[]): number => of.reduce((sum, value) => sum + value, 0) / of.length;
  const [centreX, centreY] = [mean(x), mean(y)];
  const groups = singleOr(x.map((value) => value - centreX), y.map((value) => value - centreY), series);
  const count = groups.reduce((sum, one) => sum + one.n, 0);
  const [between, all] = [groups.reduce((sum, one) => sum + one.n * one.x ** 2, 0), groups.reduce((sum, one) => sum + one.n * one.x ** 2 + one.xx, 0)];
  const size = (count - groups.reduce((sum, one) => sum + one.n ** 2, 0) / count) / (groups.length - 1);
  // The slope takes its degree of freedom from between or within the series, as its information is shared out.
  const degrees = [groups.length - 1 - between / all, count - groups.length - 1 + between / all] as const;
  const lines = new Map<FitAtCorrelation, LineAtCorrelation>();
  const fits = weightedOver({ typicalSize: size, single: groups.length === count, degrees }, (correlation) => {
    const line = lineAtCorrelation(groups, count, correlation);
    lines.set(line.fit, line);
    return line.fit;
  });
  const z = -lawOf("normal").quantile(fractile);
  return grid.map((value) => {
    const here = fits.map(({ fit, weight }) => ({ weight, fit: lines.get(fit)?.at(value - centreX) ?? fit }));
    return centreY + boundOfMixture(here, z, confidence);
  });
}

/** The series; where their tests are all but equal each as one test, as `asSingleTests` has it. */
function singleOr(x: readonly number[], y: readonly number[], series: readonly (string | number)[]): SeriesAlong[] {
  const groups = seriesAlong(x, y, series);
  const within = groups.reduce((sum, { xx, xy, yy }) => sum + yy - (xx > 0 ? xy ** 2 / xx : 0), 0) / (y.length - groups.length);
  // x and y are about their means: the line of least squares goes through 0.
  const slope = groups.reduce((sum, one) => sum + one.n * one.x * one.y + one.xy, 0) / groups.reduce((sum, one) => sum + one.n * one.x ** 2 + one.xx, 0);
  const between = groups.reduce((sum, one) => sum + one.n * (one.y - slope * one.x) ** 2, 0) / (groups.length - 1);
  if (y.length === groups.length || between <= ALL_BUT_EQUAL * within) return groups;
  if (groups.some(({ xx }) => xx > 0)) throw new NoMaximumError("The tests of a series lie all but on a line next to the scatter between series: look whether they are results of their own");
  return groups.map((one) => ({ ...one, n: 1, yy: 0 }));
}

function seriesAlong(x: readonly number[], y: readonly number[], series: readonly (string | number)[]): SeriesAlong[] {
  const groups = new Map<string | number, SeriesAlong>();
  series.forEach((label, i) => {
    const one = groups.get(label) ?? { n: 0, x: 0, y: 0, xx: 0, xy: 0, yy: 0 };
    const [dx, dy] = [(x[i] ?? NaN) - one.x, (y[i] ?? NaN) - one.y];
    one.n += 1;
    one.x += dx / one.n;
    one.y += dy / one.n;
    one.xx += dx * ((x[i] ?? NaN) - one.x);
    one.xy += dx * ((y[i] ?? NaN) - one.y);
    one.yy += dy * ((y[i] ?? NaN) - one.y);
    groups.set(label, one);
  });
  return [...groups.values()];
}

interface LineAtCorrelation {
  readonly fit: FitAtCorrelation;
  /** The same as the fit of a mean: the line at a value of the variable, worth n'(x) tests. */
  readonly at: (x: number) => FitAtCorrelation;
}

function lineAtCorrelation(groups: readonly SeriesAlong[], n: number, rho: number): LineAtCorrelation {
  let [weight, sumX, sumY, logDeterminant] = [0, 0, 0, 0];
  for (const one of groups) {
    const inflation = 1 + (one.n - 1) * rho;
    weight += one.n / inflation;
    sumX += (one.n / inflation) * one.x;
    sumY += (one.n / inflation) * one.y;
    logDeterminant += (one.n - 1) * Math.log(1 - rho) + Math.log(inflation);
  }
  const [centreX, centreY] = [sumX / weight, sumY / weight];
  let [squaresX, products] = [0, 0];
  for (const one of groups) {
    const w = one.n / (1 + (one.n - 1) * rho);
    squaresX += w * (one.x - centreX) ** 2 + one.xx / (1 - rho);
    products += w * (one.x - centreX) * (one.y - centreY) + one.xy / (1 - rho);
  }
  const slope = products / squaresX;
  const squares = groups.reduce((sum, one) => sum + (one.n / (1 + (one.n - 1) * rho)) * (one.y - centreY - slope * (one.x - centreX)) ** 2 + (one.yy - 2 * slope * one.xy + slope * slope * one.xx) / (1 - rho), 0);
  if (!(squares > 0)) throw new NoMaximumError("The values do not scatter about the line");
  // n − 1 in place of n: a line leaves the scatter one degree of freedom less than the mean of as many tests.
  const variance = squares / (n - 1);
  const at = (x: number): FitAtCorrelation => ({
    correlation: rho, mean: centreY + slope * (x - centreX), sd: Math.sqrt(variance), information: [1 / (1 / weight + (x - centreX) ** 2 / squaresX) / variance, 0, 2 * (n - 1)],
    logIntegrated: -0.5 * (logDeterminant + (n - 2) * Math.log(squares) + Math.log(weight * squaresX)),
  });
  return { fit: at(centreX), at };
}
