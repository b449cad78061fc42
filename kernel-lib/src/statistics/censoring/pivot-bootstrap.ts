import { NoMaximumError, type CensoredMaximum } from "./censored-likelihood";
import type { CensoredSample } from "./censored-profile";
import { maximumOf } from "./censored-maximum";
import type { LocationScaleLaw } from "./location-scale-law";
import { stepsOf } from "./kaplan-meier";
import { limitsAbove } from "./limits-above";
import type { BoundQuestion } from "./bound-question";

/**
 * Quantile of (estimate* - fractile) / sigma* over resamples from the fitted law. Each resample is
 * censored as the data were (Hjort's conditional bootstrap): a censored row keeps its limit; for a
 * failed row the limit it would have met is drawn from the Kaplan-Meier estimate of the limits
 * above its value. Null when more than a tenth fail.
 */
export function pivotQuantile(question: BoundQuestion, estimate: number): number | null {
  const { sample, law, maximum, z, random } = question;
  const n = sample.y.length;
  const limits = stepsOf(
    sample.y,
    sample.censored.map((c) => 1 - c),
    1,
  ).filter((s) => s.failures > 0);
  const limitOf = Array.from(sample.y, (value) => limitsAbove(limits, value));
  const y = new Float64Array(n);
  const censored = new Uint8Array(n);
  const pivots: number[] = [];
  for (let b = 0; b < question.resamples; b += 1) {
    for (let i = 0; i < n; i += 1) {
      const value = maximum.coefficients[0]! + maximum.sigma * law.quantile(random.uniform());
      const limit = sample.censored[i] === 1 ? sample.y[i]! : limitOf[i]!(random.uniform());
      censored[i] = value > limit ? 1 : 0;
      y[i] = Math.min(value, limit);
    }
    const pivot = pivotOf({ y, censored }, law, z, estimate, maximum);
    if (pivot !== null) pivots.push(pivot);
  }
  if (pivots.length < 0.9 * question.resamples) return null;
  pivots.sort((a, b) => a - b);
  const position = Math.min(
    pivots.length - 1,
    Math.max(0, (pivots.length + 1) * question.confidence - 1),
  );
  const low = Math.floor(position);
  const high = Math.min(low + 1, pivots.length - 1);
  return pivots[low]! + (position - low) * (pivots[high]! - pivots[low]!);
}

function pivotOf(
  sample: CensoredSample,
  law: LocationScaleLaw,
  z: number,
  truth: number,
  near: CensoredMaximum,
): number | null {
  let failures = 0;
  for (let i = 0; i < sample.y.length && failures < 2; i += 1)
    if (sample.censored[i] !== 1) failures += 1;
  if (failures < 2) return null;
  try {
    const at = maximumOf(sample, law, near);
    return (at.coefficients[0]! + z * at.sigma - truth) / at.sigma;
  } catch (error) {
    if (error instanceof NoMaximumError) return null;
    throw error;
  }
}
