import { pWords } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample } from "../result";
import { isNoSpread, mean, standardDeviation } from "../sample/moments";

/** Outcome of a test of the shape of a population. */
export interface NormalityTest extends Account {
  status: "ok";
  statistic: number;
  p: number;
  distribution: "normal" | "lognormal";
}

/** What a normality test is told. */
export interface NormalityOptions {
  /** Distribution tested, default normal; lognormal tests the logarithms. */
  distribution?: "normal" | "lognormal";
  /** Significance level of the reading, default 0.05. */
  level?: number;
}

/**
 * Shared frame of the normality tests: cleans, takes logs, refuses what cannot be tested, words the
 * outcome.
 */
export function normalityTest(
  method: string,
  values: ArrayLike<number>,
  options: NormalityOptions,
  range: readonly [number, number],
  evaluate: (sorted: Float64Array, centre: number, sd: number) => { statistic: number; p: number },
): NormalityTest | NotEstimable {
  const { distribution = "normal", level = 0.05 } = options;
  const { values: x, excluded } = cleanSample(values, method);
  const n = x.length;
  if (n < range[0])
    return notEstimable(method, "too few values", `at least ${range[0]}`, n, excluded);
  if (n > range[1]) throw new RangeError(`${method}: n is ${n}, expected at most ${range[1]}`);
  if (distribution === "lognormal" && x.some((value) => value <= 0)) {
    return notEstimable(
      method,
      "values not positive",
      "every value above zero for a lognormal distribution",
      n,
      excluded,
    );
  }
  const sorted = Float64Array.from(distribution === "lognormal" ? x.map(Math.log) : x).sort();
  const centre = mean(sorted);
  const sd = standardDeviation(sorted);
  if (isNoSpread(sd, distribution === "lognormal" ? 1 : centre))
    return notEstimable(method, "no spread", "values that differ", n, excluded);
  const { statistic, p } = evaluate(sorted, centre, sd);
  const few = n < 10 ? " With so few values, only gross departures could be detected." : "";
  return {
    status: "ok",
    method,
    statistic,
    p,
    n,
    distribution,
    excluded,
    assumptions: ["values independent and of one population"],
    reading:
      p < level
        ? `The values depart from a ${distribution} distribution (${method}, ${pWords(p)}, n = ${n}).`
        : `No significant departure from a ${distribution} distribution was found (${method}, ${pWords(p)}, n = ${n}); this does not prove the distribution.${few}`,
  };
}
