import { censoredRegression } from "../../regression";
import { createRandom } from "../../statistics";
import { limitAbove } from "../../statistics/censoring/limits-above";
import { maximiseCensored, NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { stepsOf } from "../../statistics/censoring/kaplan-meier";
import { lawOf } from "../../statistics/censoring/location-scale-law";

/** A fitted power of the variable with its lower band on a grid, both in ln ratio. */
export interface BandAlong {
  readonly exponent: {
    readonly estimate: number;
    readonly lower: number;
    readonly upper: number;
    readonly p: number | null;
  };
  /** Lower bound of the fractile of ln ratio at each grid value. */
  readonly band: readonly number[];
}

/** Ratios along a variable, some of them lower bounds, and the band that is asked for. */
export interface RatiosAlong {
  readonly ratios: readonly number[];
  readonly lowerBounds: readonly boolean[];
  readonly x: readonly number[];
  readonly grid: readonly number[];
  readonly fractile: number;
  readonly confidence: number;
}

export interface CensoredBandInput extends RatiosAlong {
  /** Series of each test; where given, the exponent has standard errors by series. */
  readonly series?: readonly string[];
  readonly seed: number | string;
  readonly resamples: number;
}

/**
 * Band along a variable with lower bounds: ln ratio = a + m ln x + s Z by censored maximum
 * likelihood (Tobit), and its fractile bounded from below by the parametric bootstrap of (estimate*
 * − estimate) / s*, as for a censored sample without a variable. A bound keeps its limit in each
 * resample; for a failure the limit it would have met is drawn from the Kaplan-Meier estimate of
 * the limits above it.
 *
 * @returns the band, or why there is none: more than a tenth of the resamples have no fit
 */
export function censoredBand(input: CensoredBandInput): BandAlong | string {
  const { ratios, lowerBounds, x, grid, fractile, confidence } = input;
  const logs = x.map(Math.log);
  const fit = censoredRegression({
    y: ratios,
    censored: lowerBounds,
    columns: { x: logs },
    distribution: "lognormal",
    ...(input.series ? { clusters: input.series } : {}),
  });
  const slope = fit.coefficient("x");
  const law = lawOf("normal");
  const [z, n] = [law.quantile(fractile), ratios.length];
  const centre = logs.reduce((sum, value) => sum + value, 0) / n;
  const columns = [new Float64Array(n).fill(1), Float64Array.from(logs, (value) => value - centre)];
  const intercept = (fit.coefficients[0]?.estimate ?? NaN) + slope.estimate * centre;
  const mean = logs.map((value) => intercept + slope.estimate * (value - centre));
  const values = Float64Array.from(ratios, Math.log);
  const limits = stepsOf(
    values,
    Uint8Array.from(lowerBounds, (bound) => (bound ? 0 : 1)),
    1,
  ).filter(({ failures }) => failures > 0);
  const random = createRandom(input.seed);
  const at = grid.map((value) => Math.log(value) - centre);
  const estimate = at.map((value) => intercept + slope.estimate * value + z * fit.scale);
  const pivots = at.map((): number[] => []);
  for (let b = 0; b < input.resamples; b++) {
    const [y, censored] = [new Float64Array(n), new Uint8Array(n)];
    for (let i = 0; i < n; i++) {
      const drawn = (mean[i] ?? NaN) + fit.scale * random.normal();
      const limit = lowerBounds[i]
        ? (values[i] ?? NaN)
        : limitAbove(limits, values[i] ?? NaN, random.uniform());
      censored[i] = drawn > limit ? 1 : 0;
      y[i] = Math.min(drawn, limit);
    }
    try {
      const {
        coefficients: [a = NaN, m = NaN],
        sigma,
      } = maximiseCensored({ y, censored, columns }, law, {
        coefficients: [intercept, slope.estimate],
        sigma: fit.scale,
      });
      at.forEach((value, k) =>
        pivots[k]?.push((a + m * value + z * sigma - (estimate[k] ?? NaN)) / sigma),
      );
    } catch (error) {
      if (!(error instanceof NoMaximumError)) throw error;
    }
  }
  const done = pivots[0]?.length ?? 0;
  if (done < 0.9 * input.resamples)
    return `of ${n} tests ${lowerBounds.filter(Boolean).length} are lower bounds, and more than a tenth of the resamples cannot be fitted`;
  const place = Math.min(done - 1, Math.ceil((done + 1) * confidence) - 1);
  return {
    exponent: slope,
    band: estimate.map(
      (value, k) => value - (pivots[k]?.sort((p, q) => p - q)[place] ?? NaN) * fit.scale,
    ),
  };
}
