import type { NotEstimable, Excluded } from "../result";
import { notEstimable, cleanSample, joinSetAside } from "../result";
import { mean, sumOfSquares } from "../sample/moments";

/** Named samples to be compared: { steel: [...], glass: [...] }. */
export type NamedSamples = Readonly<Record<string, ArrayLike<number>>>;

/** One cleaned group with what every method needs of it. */
export interface Group {
  name: string;
  values: number[];
  n: number;
  mean: number;
  /** Σ(x − x̄)². */
  squares: number;
  variance: number;
}

/**
 * Cleans named samples; groups of fewer than `least` values are excluded, fewer than two groups
 * cannot be compared.
 */
export function severalSamples(
  samples: NamedSamples,
  method: string,
  least: number = 2,
): { groups: Group[]; n: number; excluded: Excluded[] } | NotEstimable {
  const cleaned = Object.entries(samples).map(([name, values]) => ({
    name,
    ...cleanSample(values, `${method}, ${name}`),
  }));
  const kept = cleaned.filter(({ values }) => values.length >= least);
  const small = cleaned.length - kept.length;
  const excluded = joinSetAside(
    ...cleaned.map((sample) => sample.excluded),
    small > 0 ? [{ count: small, reason: `group of fewer than ${least} values` }] : [],
  );
  const groups = kept.map(({ name, values }): Group => {
    const centre = mean(values);
    const squares = sumOfSquares(values, centre);
    return {
      name,
      values,
      n: values.length,
      mean: centre,
      squares,
      variance: squares / (values.length - 1),
    };
  });
  const n = groups.reduce((sum, group) => sum + group.n, 0);
  if (groups.length < 2)
    return notEstimable(
      method,
      "too few groups",
      `at least two groups of ${least} values`,
      n,
      excluded,
    );
  if (groups.every((group) => group.squares <= 1e-28 * group.n * group.mean * group.mean)) {
    return notEstimable(method, "no spread", "a group whose values differ", n, excluded);
  }
  return { groups, n, excluded };
}
