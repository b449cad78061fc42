import type { Random } from "../random";

/**
 * Part of what tests in series say of their law: the sample of independent tests that the fit at
 * one intraclass correlation is worth (`worthOf`), with the weight of that correlation.
 */
export interface UncertainLaw {
  readonly weight: number;
  /**
   * Estimate of mu + a sigma, a the shift (0 without lower bounds), whose error is independent of
   * that of sigma.
   */
  readonly centre: number;
  readonly shift: number;
  /**
   * Estimate of the SD of a single test of any series, with its degrees of freedom; infinite where
   * it is known.
   */
  readonly sd: number;
  readonly degreesOfFreedom: number;
  /** Number of independent tests behind the centre; infinite where it is known. */
  readonly count: number;
  /** Share of the variance between series; null where one test a series says nothing of it. */
  readonly correlation: number | null;
}

/**
 * A law of tests in series: mean, SD of a single test of any series, share of the variance between
 * series.
 */
export interface SeriesLaw {
  readonly mean: number;
  readonly sd: number;
  readonly correlation: number;
}

/**
 * Draws a law from what tests say of it: a correlation by its weight, then sigma = sd/S with S =
 * sqrt(chi2_nu/nu), then mu = centre - a sigma + N(0, sigma^2/n'). The fractiles of the laws drawn
 * are distributed as the mixture behind `RandomEffectsModel.fractile`. An unknown correlation is
 * uniform from 0 to 1.
 * @param laws parts whose weights sum to 1, from `RandomEffectsModel.laws`
 * @example drawLaw(laws, createRandom("campaign")).mean
 */
export function drawLaw(laws: readonly UncertainLaw[], random: Random): SeriesLaw {
  let u = random.uniform();
  const part = laws.find(({ weight }) => (u -= weight) < 0) ?? laws[laws.length - 1]!;
  const { centre, shift, count, degreesOfFreedom: nu, correlation } = part;
  const sd = nu === Infinity ? part.sd : part.sd / Math.sqrt((2 * gammaDraw(nu / 2, random)) / nu);
  return {
    mean: centre - shift * sd + (sd / Math.sqrt(count)) * random.normal(),
    sd,
    correlation: correlation ?? random.uniform(),
  };
}

/**
 * A draw of the gamma distribution of scale 1 (Marsaglia and Tsang, ACM Trans. Math. Softw. 26,
 * 2000).
 */
function gammaDraw(shape: number, random: Random): number {
  if (shape < 1) return gammaDraw(shape + 1, random) * random.uniform() ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = random.normal();
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(random.uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v))
      return d * v;
  }
}
