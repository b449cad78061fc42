import { maximiseCensored, NoMaximumError, type CensoredMaximum } from "./censored-likelihood";
import type { CensoredSample } from "./censored-profile";
import type { LocationScaleLaw } from "./location-scale-law";
import { sampleLikelihood, type CentredSample } from "./sample-likelihood";

/**
 * The maximum for a sample without covariates, by Newton's method in (location/sigma, 1/sigma) as
 * `maximiseCensored` does it for rows with covariates; here two by two, and from sums where the law
 * allows.
 *
 * @param near where the maximum is expected, such as that of the law a resample was drawn from; by
 *   default the mean and spread of all values. The likelihood is concave: every start leads to the
 *   same maximum.
 * @throws NoMaximumError as for two failures that are alike
 */
export function maximumOf(
  sample: CensoredSample,
  law: LocationScaleLaw,
  near?: Pick<CensoredMaximum, "coefficients" | "sigma">,
): CensoredMaximum {
  const { centre, mean, unit, range } = scaleOf(sample);
  // Centred on the failures and scaled, to keep the search well conditioned whatever the units are.
  const standard: { failed: number[]; lowerBounds: number[] } = { failed: [], lowerBounds: [] };
  for (let i = 0; i < sample.y.length; i += 1)
    (sample.censored[i] === 1 ? standard.lowerBounds : standard.failed).push(
      (sample.y[i]! - centre) / unit,
    );
  const start =
    near === undefined
      ? { location: (mean - centre) / unit, sigma: 1 }
      : { location: (near.coefficients[0]! - centre) / unit, sigma: near.sigma / unit };
  const at = climb(standard, law, start, 1e12 / range);
  return {
    coefficients: Float64Array.of(centre + unit * at.location),
    sigma: unit * at.sigma,
    logLikelihood: at.value - standard.failed.length * Math.log(unit),
    iterations: at.iterations,
  };
}

/** Mean of the failures; mean and spread of all values; their range in units of the spread. */
function scaleOf({ y, censored }: CensoredSample): {
  centre: number;
  mean: number;
  unit: number;
  range: number;
} {
  const n = y.length;
  let failures = 0;
  let centre = 0;
  let mean = 0;
  let [low, high] = [Infinity, -Infinity];
  for (let i = 0; i < n; i += 1) {
    const value = y[i]!;
    mean += value / n;
    if (value < low) low = value;
    if (value > high) high = value;
    if (censored[i] === 1) continue;
    failures += 1;
    centre += (value - centre) / failures;
  }
  let variance = 0;
  for (let i = 0; i < n; i += 1) variance += (y[i]! - mean) ** 2 / n;
  const unit = variance > 0 ? Math.sqrt(variance) : 1;
  return { centre, mean, unit, range: Math.max((high - low) / unit, 1e-12) };
}

/** Newton's method with step halving; the same stops as for rows with covariates. */
function climb(
  sample: CentredSample,
  law: LocationScaleLaw,
  start: { location: number; sigma: number },
  steepest: number,
): { location: number; sigma: number; value: number; iterations: number } {
  const likelihood = sampleLikelihood(sample, law);
  const at = new Float64Array(5);
  let g = start.location / start.sigma;
  let tau = 1 / start.sigma;
  let value = likelihood(g, tau, at);
  for (let iterations = 1; iterations <= 200; iterations += 1) {
    const ofG = at[0]!;
    const ofTau = at[1]!;
    const gg = at[2]!;
    const gt = at[3]!;
    const tt = at[4]!;
    const determinant = gg * tt - gt * gt;
    if (!(gg > 0 && determinant > 1e-14 * gg * tt)) return withRidge(sample, law, start);
    const stepG = (tt * ofG - gt * ofTau) / determinant;
    const stepTau = (gg * ofTau - gt * ofG) / determinant;
    // Newton decrement: twice the gain still to be had.
    const decrement = stepG * ofG + stepTau * ofTau;
    let length = 1;
    let next = -Infinity;
    for (let halving = 0; halving < 60; halving += 1) {
      next =
        tau + length * stepTau > 0
          ? likelihood(g + length * stepG, tau + length * stepTau, at)
          : -Infinity;
      if (next >= value - 1e-13 * Math.abs(value)) break;
      length /= 2;
    }
    if (!Number.isFinite(next))
      throw new NoMaximumError("The censored likelihood has no finite maximum");
    g += length * stepG;
    tau += length * stepTau;
    value = next;
    if (decrement < 1e-20 || (length === 1 && decrement < 1e-15 * Math.max(1, Math.abs(value))))
      return { location: g / tau, sigma: 1 / tau, value, iterations };
    if (tau > steepest) break;
  }
  throw new NoMaximumError(
    "The censored likelihood has no finite maximum: the failures can be fitted without scatter",
  );
}

/**
 * Where the information is singular to rounding, the search for rows with covariates knows what to
 * do.
 */
function withRidge(
  { failed, lowerBounds }: CentredSample,
  law: LocationScaleLaw,
  start: { location: number; sigma: number },
): ReturnType<typeof climb> {
  const y = Float64Array.from([...failed, ...lowerBounds]);
  const rows = {
    y,
    censored: Uint8Array.from(y, (_, i) => (i < failed.length ? 0 : 1)),
    columns: [new Float64Array(y.length).fill(1)],
  };
  const { coefficients, sigma, logLikelihood, iterations } = maximiseCensored(rows, law, {
    coefficients: [start.location],
    sigma: start.sigma,
  });
  return { location: coefficients[0]!, sigma, value: logLikelihood, iterations };
}
