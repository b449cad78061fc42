import { createRandom } from "../random";
import { percent, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable } from "../result";
import { mean } from "../sample/moments";
import { sampleQuantile } from "../sample/quantiles";
import { welchTest } from "./t-test";
import type { ComparisonNames } from "./two-samples";

/** Ratio of two means, B to A, with its interval. */
export interface RatioOfMeans extends Account {
  status: "ok";
  ratio: number;
  lower: number;
  upper: number;
  confidence: number;
}

/** How the interval of a ratio is found. */
export interface RatioOptions extends ComparisonNames {
  confidence?: number;
  /**
   * Fieller's interval with Satterthwaite's degrees of freedom at each ratio (default), or the
   * percentile bootstrap.
   */
  interval?: "fieller" | "bootstrap";
  /** Bootstrap only: resamples (default 4999) and seed. */
  resamples?: number;
  seed?: number | string;
}

/**
 * Ratio of the mean of B to that of A (both positive) with a confidence interval: all ratios θ that
 * Welch's test of μ_B − θ μ_A does not exclude (Fieller's set, with Satterthwaite's degrees of
 * freedom of that contrast at θ; `ratioSide`). It holds 1 just where Welch's test is not
 * significant, and lies within a margin just where `equivalenceTest` at half its error shows
 * equivalence.
 * @example ratioOfMeans(steel, glass).reading
 */
export function ratioOfMeans(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  options: RatioOptions = {},
): RatioOfMeans | NotEstimable {
  const {
    confidence = 0.95,
    interval = "fieller",
    nameA = "A",
    nameB = "B",
    quantity = "mean",
  } = options;
  const method =
    interval === "fieller"
      ? "Fieller interval of the ratio of means"
      : "Percentile-bootstrap interval of the ratio of means";
  const test = welchTest(a, b, options);
  if (test.status === "cannot be estimated")
    return { ...test, method, reading: test.reading.replace(test.method, method) };
  if (test.ratio === null)
    return notEstimable(
      method,
      "values not positive",
      "both means above zero",
      test.n,
      test.excluded,
    );
  const ends = interval === "fieller" ? test.ratioInterval : bootstrap(a, b, confidence, options);
  if (!ends?.bounded || ends.lower === null || ends.upper === null) {
    return notEstimable(
      method,
      "mean too close to zero",
      `a mean of ${nameA} that is clearly above zero`,
      test.n,
      test.excluded,
    );
  }
  return {
    status: "ok",
    method,
    ratio: test.ratio,
    lower: ends.lower,
    upper: ends.upper,
    confidence,
    n: test.n,
    excluded: test.excluded,
    assumptions:
      interval === "fieller"
        ? test.assumptions
        : [
            "values independent",
            "samples large enough to represent their populations (small samples make the interval too short)",
          ],
    reading: `The ${quantity} of ${nameB} is ${significant(test.ratio)} times that of ${nameA} (${percent(confidence)} interval ${significant(ends.lower)} to ${significant(ends.upper)}); ${ends.lower > 1 || ends.upper < 1 ? "the interval excludes 1" : "the interval includes 1, so no significant difference was found"}.`,
  };
}

function bootstrap(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  confidence: number,
  options: RatioOptions,
): { bounded: boolean; lower: number | null; upper: number | null } {
  const random = createRandom(options.seed ?? "ratio of means");
  const first = Array.from(a).filter((value) => !Number.isNaN(value));
  const second = Array.from(b).filter((value) => !Number.isNaN(value));
  const draw = (values: readonly number[]): number =>
    mean(values.map(() => values[random.integer(values.length)]!));
  const ratios = Array.from(
    { length: options.resamples ?? 4999 },
    () => draw(second) / draw(first),
  );
  if (ratios.some((ratio) => !(ratio > 0))) return { bounded: false, lower: null, upper: null };
  return {
    bounded: true,
    lower: sampleQuantile(ratios, (1 - confidence) / 2),
    upper: sampleQuantile(ratios, (1 + confidence) / 2),
  };
}
