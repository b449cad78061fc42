import { normal } from "../../statistics";

const STANDARD = normal();

/** Values of one series in one cell, each of which failed in the mode. */
export interface SeriesByHand {
  readonly cell: string;
  readonly series: string;
  readonly values: readonly number[];
}

/** What is asked; `scaled`: the scatter is in proportion to the mean of a cell. */
export interface HandQuestion {
  readonly fractile: number;
  readonly lowerConfidence: number;
  readonly upperConfidence: number;
  readonly scaled: boolean;
}

/** The bounds of a cell; for logarithms on their scale. */
export interface CellByHand {
  readonly worth: number;
  readonly mean: number;
  readonly kLower: number;
  readonly lower: number;
  readonly kUpper: number;
  readonly upper: number;
}

/** The steps from tests in series to the bounds of each cell. */
export interface BoundsByHand {
  readonly k: number;
  readonly p: number;
  readonly n: number;
  readonly typicalSize: number;
  readonly between: number;
  readonly within: number;
  readonly correlation: number;
  readonly sd: number;
  readonly degrees: number;
  readonly cells: ReadonlyMap<string, CellByHand>;
}

/**
 * The bounds in general as a person computes them with a pocket calculator.
 *
 * In each series i: n_i, mean and sum of squares about it, of the ratio over the mean of its cell
 * (`scaled`) or of the values as they are. From k series in p cells, n tests: MS_b between the series
 * of a cell (k − p degrees of freedom), MS_w within series (n − k);
 * n_0 = (n − Σ_cells Σ n_i²/n_cell)/(k − p); ρ = (MS_b − MS_w)/(MS_b + (n_0 − 1) MS_w), from 0 to 1;
 * a series is worth w_i = n_i/(1 + (n_i − 1) ρ) tests, a cell n' = Σ w_i, its mean weighted by w_i;
 * σ² = MS_b/n_0 + (1 − 1/n_0) MS_w with Satterthwaite's degrees of freedom ν, MS_b not below MS_w. K
 * solves (K − z_p)² = z_c² (1/n' + K²/(2 ν)).
 *
 * Limits: one value of ρ, as if it were known, so the bounds are a little high with few series.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3 (K, after Natrella), with n' and ν
 * for N and N − 1; mean squares as in any nested analysis of variance.
 * @example
 * const series = ["a", "b", "c"].map((name, i) => ({ cell: "", series: name, values: [1 + i / 10, 1.1] }));
 * boundsByHand(series, { fractile: 0.05, lowerConfidence: 0.9, upperConfidence: 0.9, scaled: true })
 */
export function boundsByHand(
  series: readonly SeriesByHand[],
  question: HandQuestion,
): BoundsByHand {
  const cells = [...new Set(series.map(({ cell }) => cell))];
  const [k, p] = [series.length, cells.length];
  const sizes = series.map(({ values }) => values.length);
  const means = series.map(({ values }) => sum(values) / values.length);
  const n = sum(sizes);
  let [size, between, within] = [n, 0, 0];
  for (const cell of cells) {
    const own = series.flatMap((one, i) => (one.cell === cell ? [i] : []));
    const tests = sum(own.map((i) => sizes[i]!));
    const mean = sum(own.map((i) => sizes[i]! * means[i]!)) / tests;
    const scale = question.scaled ? mean : 1;
    size -= sum(own.map((i) => sizes[i]! ** 2)) / tests;
    between += sum(own.map((i) => sizes[i]! * (means[i]! - mean) ** 2)) / scale ** 2;
    within +=
      sum(own.map((i) => sum(series[i]!.values.map((value) => (value - means[i]!) ** 2)))) /
      scale ** 2;
  }
  const typicalSize = size / (k - p);
  between /= k - p;
  within = n > k ? within / (n - k) : 0;
  const correlation =
    n > k ? Math.max(0, (between - within) / (between + (typicalSize - 1) * within)) : 1;
  const ofSeries = Math.max(between, within) / typicalSize;
  const ofTests = (1 - 1 / typicalSize) * within;
  const sd = Math.sqrt(ofSeries + ofTests);
  const degrees = sd ** 4 / (ofSeries ** 2 / (k - p) + (n > k ? ofTests ** 2 / (n - k) : 0));
  const worths = sizes.map((count) => count / (1 + (count - 1) * correlation));
  const byCell = cells.map((cell): [string, CellByHand] => {
    const own = series.flatMap((one, i) => (one.cell === cell ? [i] : []));
    const worth = sum(own.map((i) => worths[i]!));
    const mean = sum(own.map((i) => worths[i]! * means[i]!)) / worth;
    const asked = { fractile: question.fractile, worth, degrees };
    const kLower = approximateFactor({ ...asked, confidence: question.lowerConfidence }, 1);
    const kUpper = approximateFactor({ ...asked, confidence: question.upperConfidence }, -1);
    const back = (factor: number): number =>
      question.scaled ? mean * (1 - factor * sd) : mean - factor * sd;
    return [cell, { worth, mean, kLower, lower: back(kLower), kUpper, upper: back(kUpper) }];
  });
  return {
    k,
    p,
    n,
    typicalSize,
    between,
    within,
    correlation,
    sd,
    degrees,
    cells: new Map(byCell),
  };
}

/**
 * One-sided tolerance factor K = (z_p ± √(z_p² − a b))/a, a = 1 − z_c²/(2 ν), b = z_p² − z_c²/n':
 * `+1` for the lower bound of a lower fractile, `-1` for its upper bound.
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.3.
 * @example approximateFactor({ fractile: 0.1, confidence: 0.99, worth: 43, degrees: 42 }, 1) // 1.8752
 */
export function approximateFactor(
  {
    fractile,
    confidence,
    worth,
    degrees,
  }: {
    readonly fractile: number;
    readonly confidence: number;
    readonly worth: number;
    readonly degrees: number;
  },
  side: 1 | -1,
): number {
  const z = STANDARD.quantile(1 - fractile);
  const square = STANDARD.quantile(confidence) ** 2;
  const a = 1 - square / (2 * degrees);
  const b = z ** 2 - square / worth;
  return (z + side * Math.sqrt(z ** 2 - a * b)) / a;
}

const sum = (values: readonly number[]): number => values.reduce((all, one) => all + one, 0);
