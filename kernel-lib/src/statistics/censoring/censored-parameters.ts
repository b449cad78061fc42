import { normal } from "../distributions/normal";
import { studentT } from "../distributions/student-t";
import { logGamma } from "../special/gamma-function";
import type { CensoredDistribution } from "./location-scale-law";

/** A parameter of the fitted distribution, in its own units. */
export interface CensoredParameter {
  readonly name: string;
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

export interface ParameterQuestion {
  readonly distribution: CensoredDistribution;
  readonly location: number;
  readonly scale: number;
  /** Covariance of (location, ln scale). */
  readonly covariance: Float64Array;
  readonly confidence: number;
  /** Number of clusters, or null for independent rows. */
  readonly clusterCount: number | null;
  readonly locationInterval: readonly [number, number];
  readonly scaleInterval: readonly [number, number];
}

const NAMES: Record<CensoredDistribution, readonly [string, string]> = {
  normal: ["mean", "SD"],
  lognormal: ["mean of ln", "SD of ln"],
  weibull: ["scale", "shape"],
};

/** The two parameters of the law as the field writes them. */
export function parametersOf(question: ParameterQuestion): CensoredParameter[] {
  const { distribution, location, scale, covariance } = question;
  const seLocation = Math.sqrt(covariance[0]!);
  const seLog = Math.sqrt(covariance[3]!);
  const [first, second] = intervals(question, seLocation, seLog);
  const [nameOfFirst, nameOfSecond] = NAMES[distribution];
  if (distribution !== "weibull") {
    return [
      {
        name: nameOfFirst,
        estimate: location,
        standardError: seLocation,
        lower: first[0],
        upper: first[1],
      },
      {
        name: nameOfSecond,
        estimate: scale,
        standardError: scale * seLog,
        lower: second[0],
        upper: second[1],
      },
    ];
  }
  // Weibull: ln y has location ln eta and scale 1/k.
  const eta = Math.exp(location);
  return [
    {
      name: nameOfFirst,
      estimate: eta,
      standardError: eta * seLocation,
      lower: Math.exp(first[0]),
      upper: Math.exp(first[1]),
    },
    {
      name: nameOfSecond,
      estimate: 1 / scale,
      standardError: seLog / scale,
      lower: 1 / second[1],
      upper: 1 / second[0],
    },
  ];
}

/**
 * Profile likelihood for independent rows; Wald with t on clusters - 1 (ln scale for the scale) for
 * clusters.
 */
function intervals(
  question: ParameterQuestion,
  seLocation: number,
  seLog: number,
): readonly [readonly [number, number], readonly [number, number]] {
  if (question.clusterCount === null) return [question.locationInterval, question.scaleInterval];
  const t = studentT(question.clusterCount - 1).upperQuantile((1 - question.confidence) / 2);
  return [
    [question.location - t * seLocation, question.location + t * seLocation],
    [question.scale * Math.exp(-t * seLog), question.scale * Math.exp(t * seLog)],
  ];
}

/** Mean, SD and COV of the distribution of the values. */
export function momentsOf(
  distribution: CensoredDistribution,
  location: number,
  scale: number,
): { mean: number; sd: number; cov: number } {
  if (distribution === "normal") return { mean: location, sd: scale, cov: scale / location };
  if (distribution === "lognormal") {
    const mean = Math.exp(location + (scale * scale) / 2);
    const cov = Math.sqrt(Math.expm1(scale * scale));
    return { mean, sd: mean * cov, cov };
  }
  // E Y = eta Gamma(1 + 1/k); E Y^2 = eta^2 Gamma(1 + 2/k).
  const first = logGamma(1 + scale);
  const mean = Math.exp(location + first);
  const cov = Math.sqrt(Math.max(Math.expm1(logGamma(1 + 2 * scale) - 2 * first), 0));
  return { mean, sd: mean * cov, cov };
}

/**
 * Wald bound helper: the one- or two-sided multiplier for a number of clusters (normal when null).
 */
export function multiplier(upperTail: number, clusterCount: number | null): number {
  return clusterCount === null
    ? normal().upperQuantile(upperTail)
    : studentT(clusterCount - 1).upperQuantile(upperTail);
}
