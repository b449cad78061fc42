import { f } from "../distributions/f";
import { counted, percent, pWords, significant } from "../reading";
import { notEstimable, type Account, type NotEstimable } from "../result";
import { oneWayLayout, seriesSums, type SeriesSums } from "./one-way-layout";

/** Values of one group, each with the series it belongs to. */
export interface GroupInSeries {
  readonly name: string;
  readonly values: readonly number[];
  /** One a value; the same name in two groups is taken as two series. */
  readonly series: readonly (string | number)[];
}

/** Outcome of a comparison of groups whose values come in series. */
export interface NestedAnalysis extends Account {
  readonly status: "ok";
  readonly groups: number;
  readonly series: number;
  readonly meanSquareGroups: number;
  /** Between series of one group. */
  readonly meanSquareSeries: number;
  /** Between values of one series; 0 where none has two. */
  readonly meanSquareWithin: number;
  /** r, the share of `meanSquareSeries` in the error of F; 1 for equal sizes. */
  readonly share: number;
  /** What F compares `meanSquareGroups` with: r MS_series + (1 − r) MS_within. */
  readonly meanSquareError: number;
  readonly f: number;
  readonly numeratorDegrees: number;
  readonly denominatorDegrees: number;
  readonly p: number;
}

/**
 * Do groups differ, where values come in series that share an error? Nested analysis of variance
 * with the series as the random unit: y_ijk = μ + α_i + b_ij + e_ijk, b_ij ~ N(0, σ_b²) one a
 * series of group i, e_ijk ~ N(0, σ_e²) one a value.
 *
 * F = MS_groups / (r MS_series + (1 − r) MS_within) on k − 1 and ν degrees of freedom, with the
 * mean squares between k groups, between the s series within groups (s − k degrees of freedom) and
 * within series (n − s). r = c₂/c₁ makes the error expect what MS_groups does without a difference:
 * E MS_series = σ_e² + c₁ σ_b², E MS_groups = σ_e² + c₂ σ_b², c₁ = (n − A)/(s − k), c₂ = (A − B)/(k
 * − 1), A = Σ_i Σ_j n_ij²/n_i, B = Σ n_ij²/n. ν is Satterthwaite's, (r MS_series + (1 − r)
 * MS_within)²/((r MS_series)²/(s − k) + ((1 − r) MS_within)²/(n − s)). Series of equal size have r
 * = 1 and the exact F = MS_groups/MS_series; one value a series is the classical one-way analysis.
 *
 * Limits: normal values; one σ_b and one σ_e for all groups; with unequal sizes approximate. Where
 * r > 1 and MS_series < MS_within the error is MS_series itself: less would be extrapolated.
 *
 * Sources: Satterthwaite, "An approximate distribution of estimates of variance components",
 * Biometrics Bulletin 2 (1946); Searle, Casella and McCulloch, Variance Components (1992), chapter
 * 4; the same names and numbers as R's aov(y ~ group + Error(series)) for equal sizes.
 *
 * @returns "cannot be estimated" with fewer than 2 groups, a group with fewer than 2 series, or
 *   without scatter between series
 * @throws RangeError for columns of different length or a value that is not finite
 * @example
 * nestedAnalysisOfVariance([{ name: "GFRP", values: logs, series }, { name: "BFRP", values: others, series: theirs }]).reading
 */
export function nestedAnalysisOfVariance(
  groups: readonly GroupInSeries[],
  level: number = 0.05,
): NestedAnalysis | NotEstimable {
  const method = "Nested analysis of variance";
  for (const { name, values, series } of groups) {
    if (series.length !== values.length)
      throw new RangeError(
        `nestedAnalysisOfVariance: ${name} has ${values.length} values and ${series.length} names of series, expected equal numbers`,
      );
    const wrong = values.findIndex((value) => !Number.isFinite(value));
    if (wrong >= 0)
      throw new RangeError(
        `nestedAnalysisOfVariance: value ${wrong + 1} of ${name} is ${values[wrong]}, expected a finite number`,
      );
  }
  const n = groups.reduce((sum, { values }) => sum + values.length, 0);
  if (groups.length < 2) return notEstimable(method, "too few groups", "at least 2 groups", n);
  const lone = groups.filter(({ series }) => new Set(series).size < 2);
  if (lone.length > 0)
    return notEstimable(
      method,
      "too few series",
      `at least 2 series in every group, to estimate between-series variance (${lone.map(({ name, series }) => `${name} has ${new Set(series).size}`).join(", ")})`,
      n,
    );
  // About one origin, sums of squares keep their digits.
  const origin = groups.reduce((sum, { values }) => sum + values.reduce((a, b) => a + b, 0), 0) / n;
  const sums = groups.map(({ values, series }) =>
    seriesSums(
      values.map((value) => value - origin),
      series,
    ),
  );
  const found = meanSquares(sums, n);
  const { meanSquareGroups, meanSquareSeries, meanSquareWithin, share, ofSeries, ofWithin } = found;
  const bare = share > 1 && meanSquareSeries < meanSquareWithin;
  const [a, b] = bare
    ? [meanSquareSeries, 0]
    : [share * meanSquareSeries, (1 - share) * meanSquareWithin];
  // Sums of squares carry the rounding of doubles: about the origin, and of the values themselves.
  const squares = sums.reduce(
    (sum, group) => sum + group.reduce((inner, one) => inner + one.squares, 0),
    0,
  );
  if (!(a + b > 1e-13 * squares && a + b > 1e-28 * origin * origin))
    return notEstimable(method, "no spread", "series of a group that differ", n);
  const statistic = meanSquareGroups / (a + b);
  const [numeratorDegrees, denominatorDegrees] = [
    groups.length - 1,
    (a + b) ** 2 / (a ** 2 / ofSeries + (b === 0 ? 0 : b ** 2 / ofWithin)),
  ];
  const p = f(numeratorDegrees, denominatorDegrees).upperTail(statistic);
  // Series closer to each other than chance makes them (1 in 100) have been averaged or adjusted,
  // or are luck: F is then large for nothing.
  const closeness =
    ofWithin > 0 && meanSquareWithin > 0
      ? 1 - f(ofSeries, ofWithin).upperTail(meanSquareSeries / meanSquareWithin)
      : 1;
  const closer =
    closeness < 0.01
      ? ` Caution: the series of a group agree more closely than the scatter of their tests can explain (${pWords(closeness)}), which makes F too large.`
      : "";
  const series = sums.reduce((sum, one) => sum + one.length, 0);
  const basis = `(F = ${significant(statistic)} on ${numeratorDegrees} and ${significant(denominatorDegrees)} degrees of freedom, ${pWords(p)}, ${counted(groups.length, "group")}, ${counted(series, "series", "series")}, n = ${n})`;
  return {
    status: "ok",
    method,
    n,
    excluded: [],
    groups: groups.length,
    series,
    meanSquareGroups,
    meanSquareSeries,
    meanSquareWithin,
    share,
    meanSquareError: a + b,
    f: statistic,
    numeratorDegrees,
    denominatorDegrees,
    p,
    assumptions: [
      "values normal within a series and between series, with the same scatters in every group",
      "series independent of each other",
    ],
    reading:
      p < level
        ? `The group means differ significantly at the ${percent(level)} level ${basis}.${closer}`
        : `With the series effect included, no significant difference of the group means was found ${basis}. This does not show that they are equal.`,
  };
}

interface MeanSquares {
  readonly meanSquareGroups: number;
  readonly meanSquareSeries: number;
  readonly meanSquareWithin: number;
  readonly share: number;
  readonly ofSeries: number;
  readonly ofWithin: number;
}

function meanSquares(groups: readonly (readonly SeriesSums[])[], n: number): MeanSquares {
  let [a, between, within] = [0, 0, 0];
  const whole = groups.map((group): SeriesSums => {
    const total = group.reduce(
      (one, { count, sum, squares }) => ({
        count: one.count + count,
        sum: one.sum + sum,
        squares: one.squares + squares,
      }),
      { count: 0, sum: 0, squares: 0 },
    );
    const layout = oneWayLayout(group);
    if (layout !== null) {
      between += layout.meanSquareBetween * (layout.series - 1);
      within += layout.meanSquareWithin * (layout.n - layout.series);
    }
    a += group.reduce((sum, { count }) => sum + count * count, 0) / total.count;
    return total;
  });
  const [k, s] = [groups.length, groups.reduce((sum, group) => sum + group.length, 0)];
  const b =
    groups.reduce(
      (sum, group) => sum + group.reduce((inner, { count }) => inner + count * count, 0),
      0,
    ) / n;
  return {
    meanSquareGroups: oneWayLayout(whole)?.meanSquareBetween ?? NaN,
    meanSquareSeries: between / (s - k),
    meanSquareWithin: n > s ? within / (n - s) : 0,
    share: (a - b) / (k - 1) / ((n - a) / (s - k)),
    ofSeries: s - k,
    ofWithin: n - s,
  };
}
