import { f } from "../distributions/f";
import { counted, percent, pWords, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable } from "../result";
import { mean } from "../sample/moments";
import { sampleQuantile } from "../sample/quantiles";
import type { Group, NamedSamples } from "./several-samples";
import { severalSamples } from "./several-samples";
import { welchOfMeans } from "./welch-of-means";

/** Outcome of a one-way comparison of several groups. */
export interface AnalysisOfVariance extends Account {
  status: "ok";
  groups: number;
  f: number;
  numeratorDegrees: number;
  denominatorDegrees: number;
  p: number;
  /** Sums of squares; null where the method has none (Welch). */
  betweenSquares: number | null;
  withinSquares: number | null;
}

/** Classical one-way analysis of variance: F = [Σ n_i (x̄_i − x̄)²/(k − 1)] / [Σ SS_i/(N − k)]. */
export function analysisOfVariance(
  samples: NamedSamples,
  level: number = 0.05,
): AnalysisOfVariance | NotEstimable {
  const method = "One-way analysis of variance";
  const data = severalSamples(samples, method, 1);
  if ("status" in data) return data;
  const { groups, n, excluded } = data;
  if (n === groups.length)
    return notEstimable(method, "too few values", "a group of at least 2 values", n, excluded);
  const parts = classicalF(groups, n);
  return finish(method, groups, n, excluded, parts, level, "means", [
    "values independent",
    "every group normal with the same variance",
  ]);
}

/** Welch's one-way test of means, variances not assumed equal (Biometrika 38, 1951). */
export function welchAnalysisOfVariance(
  samples: NamedSamples,
  level: number = 0.05,
): AnalysisOfVariance | NotEstimable {
  const method = "Welch's one-way test";
  const data = severalSamples(samples, method);
  if ("status" in data) return data;
  const { groups, n, excluded } = data;
  if (groups.some((group) => !(group.variance > 1e-28 * group.mean * group.mean)))
    return notEstimable(method, "no spread", "values that differ in every group", n, excluded);
  const found = welchOfMeans(
    groups.map((group) => group.mean),
    groups.map((group) => group.n / group.variance),
    groups.map((group) => group.n - 1),
  );
  const parts = { ...found, betweenSquares: null, withinSquares: null };
  return finish(method, groups, n, excluded, parts, level, "means", [
    "values independent",
    "every group normal",
  ]);
}

/**
 * Test of equal variances: analysis of variance of |x − centre|, the centre being the group's
 * median (Brown–Forsythe, default, the sturdier one) or mean (Levene).
 */
export function equalVariancesTest(
  samples: NamedSamples,
  centre: "median" | "mean" = "median",
  level: number = 0.05,
): AnalysisOfVariance | NotEstimable {
  const method = centre === "median" ? "Brown-Forsythe test" : "Levene's test";
  const data = severalSamples(samples, method);
  if ("status" in data) return data;
  const distances = Object.fromEntries(
    data.groups.map(({ name, values }) => {
      const middle = centre === "median" ? sampleQuantile(values, 0.5)! : mean(values);
      return [name, values.map((value) => Math.abs(value - middle))];
    }),
  );
  const inner = severalSamples(distances, method);
  if ("status" in inner) return { ...inner, excluded: data.excluded };
  return finish(
    method,
    data.groups,
    data.n,
    data.excluded,
    classicalF(inner.groups, inner.n),
    level,
    "variances",
    ["values independent"],
  );
}

type Parts = Pick<
  AnalysisOfVariance,
  "f" | "numeratorDegrees" | "denominatorDegrees" | "betweenSquares" | "withinSquares"
>;

function classicalF(groups: readonly Group[], n: number): Parts {
  // Means of values less a common origin: their differences keep all digits under a large offset.
  const origin = groups[0]!.values[0]!;
  const means = groups.map((group) => mean(group.values.map((value) => value - origin)));
  const grand = groups.reduce((sum, group, i) => sum + (group.n / n) * means[i]!, 0);
  const betweenSquares = groups.reduce(
    (sum, group, i) => sum + group.n * (means[i]! - grand) ** 2,
    0,
  );
  const withinSquares = groups.reduce((sum, group) => sum + group.squares, 0);
  const numeratorDegrees = groups.length - 1;
  const denominatorDegrees = n - groups.length;
  return {
    f: betweenSquares / numeratorDegrees / (withinSquares / denominatorDegrees),
    numeratorDegrees,
    denominatorDegrees,
    betweenSquares,
    withinSquares,
  };
}

function finish(
  method: string,
  groups: readonly Group[],
  n: number,
  excluded: Account["excluded"],
  parts: Parts,
  level: number,
  what: "means" | "variances",
  assumptions: string[],
): AnalysisOfVariance {
  const p = f(parts.numeratorDegrees, parts.denominatorDegrees).upperTail(parts.f);
  const tail = `(${method}, F = ${significant(parts.f)}, ${pWords(p)}, ${counted(groups.length, "group")}, n = ${n})`;
  const spread =
    what === "means"
      ? `means from ${significant(groups.reduce((a, g) => Math.min(a, g.mean), Infinity))} to ${significant(groups.reduce((a, g) => Math.max(a, g.mean), -Infinity))}`
      : `SDs from ${significant(Math.sqrt(groups.reduce((a, g) => Math.min(a, g.variance), Infinity)))} to ${significant(Math.sqrt(groups.reduce((a, g) => Math.max(a, g.variance), 0)))}`;
  return {
    status: "ok",
    method,
    assumptions,
    n,
    excluded,
    groups: groups.length,
    ...parts,
    p,
    reading:
      p < level
        ? `The ${what} of the groups differ significantly at the ${percent(level)} level: ${spread} ${tail}.`
        : `No significant difference of the ${what} of the groups was found: ${spread} ${tail}. This does not show that they are equal.`,
  };
}
