import { normal } from "../distributions/normal";
import { percent, significant } from "../reading";
import { gatherCensored, type CensoredInput } from "./censored-sample";
import { basisWords, type CensoredStatement } from "./censored-words";

/** One step of the curve: just after `value`. */
export interface SurvivalStep {
  readonly value: number;
  readonly atRisk: number;
  readonly failures: number;
  readonly censored: number;
  /** Estimated share of the population that does not fail up to and including `value`. */
  readonly survival: number;
  /** Greenwood's standard error of `survival`. */
  readonly standardError: number;
  /**
   * Pointwise interval of `survival` on the log(-log) scale; null where it does not exist (survival
   * 1 or 0).
   */
  readonly lower: number | null;
  readonly upper: number | null;
}

export interface KaplanMeier extends CensoredStatement {
  readonly confidence: number;
  readonly failures: number;
  readonly steps: readonly SurvivalStep[];
  /**
   * Value reached by half: the first where the survival is at most 1/2, the midpoint of a flat
   * stretch at exactly 1/2; null when never reached.
   */
  readonly median: number | null;
  /** Interval of the median; a null end is open. */
  readonly medianInterval: readonly [number | null, number | null];
}

/**
 * Kaplan-Meier estimate of S(y) = P(failure value > y) from right-censored values.
 *
 * S = product over failure values (1 - d / r); Greenwood variance S^2 sum d / (r (r - d)); interval
 * S^exp(+-z se(ln(-ln S))). A value censored at the same load as a failure counts as still at risk
 * there.
 *
 * @throws RangeError for columns of different length, or no usable value
 * @example kaplanMeier({ values, censored }).steps
 */
export function kaplanMeier(input: CensoredInput & { readonly confidence?: number }): KaplanMeier {
  const confidence = input.confidence ?? 0.95;
  const gathered = gatherCensored({ values: input.values, censored: input.censored }, null);
  if (gathered.values.length === 0)
    throw new RangeError("kaplanMeier: no usable value, expected at least one");
  const z = normal().quantile((1 + confidence) / 2);
  const steps = stepsOf(gathered.values, gathered.sample.censored, z);
  const median = medianOf(steps.map((s) => [s.value, s.survival]));
  // The interval of the median is where the pointwise interval of S holds 1/2.
  const medianInterval: [number | null, number | null] = [
    medianOf(steps.map((s) => [s.value, s.lower ?? s.survival])),
    medianOf(steps.map((s) => [s.value, s.upper ?? s.survival])),
  ];
  const last = steps[steps.length - 1]!;
  const interval = `${percent(confidence)} interval ${medianInterval[0] === null ? "open below" : significant(medianInterval[0])} to ${medianInterval[1] === null ? "open above" : significant(medianInterval[1])}`;
  return {
    method: "Kaplan-Meier, Greenwood standard errors, log(-log) intervals",
    assumptions: [
      "the reason for stopping a test early is independent of the load it would have reached in this mode",
      "values are independent",
    ],
    n: gathered.values.length,
    excluded: gathered.excluded,
    confidence,
    failures: gathered.failures,
    steps,
    median,
    medianInterval,
    warnings: gathered.failures === 0 ? ["No test failed in this mode: the curve stays at 1"] : [],
    reading:
      gathered.failures === 0
        ? `The curve does not decrease: ${basisWords(gathered)}, the highest ${significant(last.value)}, so the median cannot be estimated.`
        : median === null
          ? `The median is above ${significant(last.value)}, the highest value tested, at which an estimated ${percent(last.survival)} had not failed (${basisWords(gathered)}).`
          : `The median is about ${significant(median)} (${interval}; ${basisWords(gathered)}).`,
  };
}

/** Steps at every different value, in rising order. */
export function stepsOf(values: Float64Array, censored: Uint8Array, z: number): SurvivalStep[] {
  const order = Array.from(values.keys()).sort((a, b) => values[a]! - values[b]!);
  const steps: SurvivalStep[] = [];
  let atRisk = values.length;
  let survival = 1;
  let greenwood = 0;
  for (let i = 0; i < order.length;) {
    const value = values[order[i]!]!;
    let failures = 0;
    let bounds = 0;
    for (; i < order.length && values[order[i]!] === value; i += 1) {
      if (censored[order[i]!] === 1) bounds += 1;
      else failures += 1;
    }
    survival *= 1 - failures / atRisk;
    greenwood += failures === atRisk ? 0 : failures / (atRisk * (atRisk - failures));
    const open = survival > 0 && survival < 1;
    const spread = open ? Math.exp((z * Math.sqrt(greenwood)) / Math.log(survival)) : 1;
    steps.push({
      value,
      atRisk,
      failures,
      censored: bounds,
      survival,
      standardError: survival * Math.sqrt(greenwood),
      lower: open ? survival ** (1 / spread) : null,
      upper: open ? survival ** spread : null,
    });
    atRisk -= failures + bounds;
  }
  return steps;
}

function medianOf(curve: readonly (readonly [number, number])[]): number | null {
  const first = curve.findIndex(([, s]) => s <= 0.5 + 1e-12);
  if (first < 0) return null;
  const [value, survival] = curve[first]!;
  if (Math.abs(survival - 0.5) > 1e-12) return value;
  const below = curve.find(([, s]) => s < 0.5 - 1e-12);
  return below === undefined ? value : (value + below[0]) / 2;
}
