import { maximiseCensored, type CensoredMaximum } from "./censored-likelihood";
import type { CensoredSample } from "./censored-profile";
import type { LocationScaleLaw } from "./location-scale-law";

/** The maximum for a sample without covariates, started from the spread of all values. */
export function maximumOf(sample: CensoredSample, law: LocationScaleLaw): CensoredMaximum {
  const n = sample.y.length;
  let mean = 0;
  for (let i = 0; i < n; i += 1) mean += sample.y[i]! / n;
  let variance = 0;
  for (let i = 0; i < n; i += 1) variance += (sample.y[i]! - mean) ** 2 / n;
  // Centred and scaled to keep the search well conditioned whatever the units are.
  const unit = variance > 0 ? Math.sqrt(variance) : 1;
  const standard = { y: sample.y.map((v) => (v - mean) / unit), censored: sample.censored, columns: [new Float64Array(n).fill(1)] };
  const at = maximiseCensored(standard, law, { coefficients: [0], sigma: 1 });
  const failures = sample.censored.reduce((count, c) => count + (c === 1 ? 0 : 1), 0);
  return { coefficients: Float64Array.of(mean + unit * at.coefficients[0]!), sigma: unit * at.sigma, logLikelihood: at.logLikelihood - failures * Math.log(unit), iterations: at.iterations };
}
