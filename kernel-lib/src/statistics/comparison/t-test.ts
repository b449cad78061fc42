import { studentT } from "../distributions/student-t";
import type { Account, NotEstimable } from "../result";
import type { ComparisonNames, TwoSamples } from "./two-samples";
import { meansOf, twoSamples } from "./two-samples";
import { differenceReading } from "./difference-words";
import type { RatioInterval } from "./ratio-interval";
import { fiellerInterval } from "./ratio-interval";
import { contrastInterval, satterthwaite } from "./ratio-contrast";

/** Options of a t-test of two means. */
export interface TTestOptions extends ComparisonNames {
  /** Confidence of the intervals, default 0.95; also 1 − significance level of the reading. */
  confidence?: number;
}

/** Comparison of two means. The first sample is the reference: difference = B − A, ratio = B/A. */
export interface TTest extends Account {
  status: "ok";
  nA: number;
  nB: number;
  meanA: number;
  meanB: number;
  sdA: number;
  sdB: number;
  /** mean B − mean A. */
  difference: number;
  standardError: number;
  lower: number;
  upper: number;
  /** mean B / mean A; null where a mean is not positive. */
  ratio: number | null;
  /**
   * Interval of the ratio, all θ that the same test of μ_B − θ μ_A does not exclude; null with the
   * ratio.
   */
  ratioInterval: RatioInterval | null;
  t: number;
  degreesOfFreedom: number;
  /** Two-sided. */
  p: number;
  confidence: number;
}

/**
 * Welch's t-test of two means, variances not assumed equal.
 *
 * t = (x̄_B − x̄_A)/√(s_A²/n_A + s_B²/n_B), ν = (A + B)²/[A²/(n_A − 1) + B²/(n_B − 1)], A =
 * s_A²/n_A, B = s_B²/n_B (Welch 1947). Two-sided. The interval of the ratio takes ν of the contrast
 * at each ratio (`ratioSide`), and so holds 1 just where p is above the level.
 * @example
 * welchTest(steel, glass, { quantity: "mean pull-out load", nameA: "steel", nameB: "glass" }).reading
 */
export function welchTest(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  options: TTestOptions = {},
): TTest | NotEstimable {
  const method = "Welch's t-test";
  const samples = twoSamples(a, b, method, "welchTest");
  if ("status" in samples) return samples;
  const [a1, b1] = meansOf(samples);
  return build(
    samples,
    {
      shareA: a1.variance,
      shareB: b1.variance,
      degreesOfFreedom: satterthwaite([a1, b1]),
      method,
      methodWords: "Welch t",
      assumptions: [
        "values independent, each sample of one population",
        "populations normal, or samples large enough that their means are normal",
      ],
      ratioInterval: (confidence) => contrastInterval(a1, b1, confidence),
    },
    options,
  );
}

/**
 * Student's t-test of two means with variances assumed equal: pooled SD, ν = n_A + n_B − 2.
 * Two-sided.
 */
export function equalVarianceTest(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  options: TTestOptions = {},
): TTest | NotEstimable {
  const method = "Student's t-test with equal variances";
  const samples = twoSamples(a, b, method, "equalVarianceTest");
  if ("status" in samples) return samples;
  const nA = samples.a.length;
  const nB = samples.b.length;
  const pooled = ((nA - 1) * samples.varianceA + (nB - 1) * samples.varianceB) / (nA + nB - 2);
  const [shareA, shareB, degreesOfFreedom] = [pooled / nA, pooled / nB, nA + nB - 2];
  return build(
    samples,
    {
      shareA,
      shareB,
      degreesOfFreedom,
      method,
      methodWords: "equal-variance t",
      assumptions: [
        "values independent, each sample of one population",
        "populations normal",
        "the same variance in both populations",
      ],
      // One pooled variance has the same degrees of freedom for every ratio tested.
      ratioInterval: (confidence) =>
        fiellerInterval(
          samples.meanA,
          samples.meanB,
          shareA,
          shareB,
          studentT(degreesOfFreedom).upperQuantile((1 - confidence) / 2),
        ),
    },
    options,
  );
}

/** What makes one t-test differ from another. */
interface Basis {
  readonly shareA: number;
  readonly shareB: number;
  readonly degreesOfFreedom: number;
  readonly method: string;
  readonly methodWords: string;
  readonly assumptions: string[];
  readonly ratioInterval: (confidence: number) => RatioInterval;
}

function build(
  samples: TwoSamples,
  {
    shareA,
    shareB,
    degreesOfFreedom,
    method,
    methodWords,
    assumptions,
    ratioInterval: intervalAt,
  }: Basis,
  options: TTestOptions,
): TTest {
  const { confidence = 0.95, quantity = "mean", nameA = "A", nameB = "B" } = options;
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(
      `${method}: confidence is ${confidence}, expected a number between 0 and 1`,
    );
  const { meanA, meanB } = samples;
  const difference = meanB - meanA;
  const standardError = Math.sqrt(shareA + shareB);
  const law = studentT(degreesOfFreedom);
  const quantile = law.upperQuantile((1 - confidence) / 2);
  const t = difference / standardError;
  const p = Math.min(1, 2 * law.upperTail(Math.abs(t)));
  const positive = meanA > 0 && meanB > 0;
  const ratio = positive ? meanB / meanA : null;
  const ratioInterval = positive ? intervalAt(confidence) : null;
  const lower = difference - quantile * standardError;
  const upper = difference + quantile * standardError;
  return {
    status: "ok",
    method,
    assumptions,
    n: samples.a.length + samples.b.length,
    excluded: samples.excluded,
    nA: samples.a.length,
    nB: samples.b.length,
    meanA,
    meanB,
    sdA: Math.sqrt(samples.varianceA),
    sdB: Math.sqrt(samples.varianceB),
    difference,
    standardError,
    lower,
    upper,
    ratio,
    ratioInterval,
    t,
    degreesOfFreedom,
    p,
    confidence,
    reading: differenceReading({
      quantity,
      nameA,
      nameB,
      difference,
      lower,
      upper,
      ratio,
      ratioInterval,
      confidence,
      p,
      methodWords,
    }),
  };
}
