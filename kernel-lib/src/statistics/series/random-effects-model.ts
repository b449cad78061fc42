import { lawOf } from "../censoring/location-scale-law";
import { asSingleTests } from "./all-but-equal";
import { fitsOverCorrelation, type WeightedFit } from "./correlation-weights";
import { fitsOf, meanOf } from "./fit-at-correlation";
import type { FitAtCorrelation } from "./fit-with-lower-bounds";
import { fractileMixture, worthOf } from "./mixture-bound";
import { layoutOf, testsInSeries, type Layout } from "./tests-in-series";
import type { UncertainLaw } from "./uncertain-law";
import type {
  RandomEffectsSample,
  FractileQuestion,
  FractileBounds,
  Estimated,
} from "./series-estimates";
import { withoutSilentBounds } from "./silent-bounds";

/**
 * Tests in series with fixed effects and one scatter, lower bounds counted as such:
 * y_ij = x_ij'beta + b_i + e_ij, b_i ~ N(0, rho sigma^2) one a series, e_ij ~ N(0, (1 - rho)
 * sigma^2) one a test.
 *
 * rho is not known: what is said of beta and sigma is averaged over rho by the integrated
 * likelihood and a vague prior ({@link fitsOverCorrelation}), an approximate Bayesian mixture. With
 * lower bounds the numbers of tests that each fit is worth come from its observed information.
 * @throws NoMaximumError where the failures do not scatter, or a column of X has no failure to be
 *   estimated from
 */
export class RandomEffectsModel {
  readonly layout: Layout;
  /**
   * Most likely intraclass correlation; 1 where the tests of a series are all but equal and count
   * as one.
   */
  readonly correlation: number;
  readonly allButEqual: boolean;
  readonly #fits: readonly WeightedFit[];
  readonly #mode: FitAtCorrelation;
  readonly #centre: number;
  readonly #unit: number;
  readonly #cells: number;

  constructor({ cells, independent = false, ...sample }: RandomEffectsSample) {
    const n = sample.y.length;
    let [centre, squares] = [0, 0];
    for (let i = 0; i < n; i += 1) centre += sample.y[i]! / n;
    for (let i = 0; i < n; i += 1) squares += (sample.y[i]! - centre) ** 2 / n;
    [this.#centre, this.#unit, this.#cells] = [centre, squares > 0 ? Math.sqrt(squares) : 1, cells];
    // Centred and scaled, to keep the search well conditioned whatever the units are.
    const all = withoutSilentBounds(
      testsInSeries({
        ...sample,
        y: Float64Array.from(sample.y, (value) => (value - centre) / this.#unit),
      }),
    );
    const single = independent ? null : asSingleTests(all);
    const tests = single ?? all;
    this.layout = layoutOf(tests);
    this.allButEqual = single !== null;
    const fits = fitsOf(tests);
    if (independent) {
      this.#mode = fits({ value: 0, rest: 1 });
      this.#fits = [{ fit: this.#mode, weight: 1 }];
    } else {
      const bounds = tests.series.some((parts) => parts.some(({ limits }) => limits.length > 0));
      const over = fitsOverCorrelation(this.layout, fits, { lowerBounds: bounds });
      [this.#fits, this.#mode] = [over.fits, over.mode];
    }
    this.correlation = this.allButEqual ? 1 : this.#mode.correlation;
  }

  /**
   * SD of a single test at the most likely correlation, freed of the bias of maximum likelihood.
   */
  get sd(): number {
    return this.#unit * worthOf(meanOf(this.#mode, this.#first)).sd;
  }

  /** c'beta at the most likely correlation. */
  mean(c: ArrayLike<number>): number {
    return this.#back(meanOf(this.#mode, c).mean, c);
  }

  /** Effective number of independent tests behind c'beta, at the most likely correlation. */
  effectiveTests(c: ArrayLike<number>): number {
    return worthOf(meanOf(this.#mode, c)).count;
  }

  /**
   * The fractile of a further test of a further series at c: P(c'beta - z sigma >= lower) =
   * confidence, and so on.
   */
  fractile(
    c: ArrayLike<number>,
    { fractile, confidence, upperConfidence = confidence }: FractileQuestion,
  ): FractileBounds {
    const z = -lawOf("normal").quantile(fractile);
    const mixture = fractileMixture(
      this.#fits.map(({ fit, weight }) => ({ fit: meanOf(fit, c), weight })),
      z,
    );
    const at = (probability: number): number => this.#back(mixture.quantile(probability), c);
    return { estimate: at(0.5), lower: at(1 - confidence), upper: at(upperConfidence) };
  }

  /**
   * c'beta at the most likely correlation, as restricted maximum likelihood has it without lower
   * bounds.
   */
  atMode(c: ArrayLike<number>): Estimated {
    const { mean, variance } = this.#errorOf(this.#mode, c);
    return {
      value: this.#back(mean, c),
      variance: this.#unit ** 2 * variance,
      degrees: this.layout.between,
    };
  }

  /**
   * P(c'beta - z sigma <= value): the lower bound at confidence C is at least `value` where this is
   * at most 1 - C, the upper bound below it where this is more than C. One evaluation, without the
   * search of {@link fractile}.
   */
  probabilityBelow(c: ArrayLike<number>, value: number, fractile: number): number {
    const z = -lawOf("normal").quantile(fractile);
    const own = (value - this.#back(0, c)) / this.#unit;
    return fractileMixture(
      this.#fits.map(({ fit, weight }) => ({ fit: meanOf(fit, c), weight })),
      z,
    ).below(own);
  }

  /**
   * What the tests say of the law at c: one part for each correlation of the mixture, to be drawn
   * from by `drawLaw`.
   */
  laws(c: ArrayLike<number>): readonly UncertainLaw[] {
    const unknown = !this.allButEqual && this.layout.within < 1;
    return this.#fits.map(({ fit, weight }) => {
      const { centre, shift, sd, count, degreesOfFreedom } = worthOf(meanOf(fit, c));
      const correlation = this.allButEqual ? 1 : unknown ? null : fit.correlation;
      return {
        weight,
        centre: this.#back(centre, c),
        shift,
        sd: this.#unit * sd,
        count,
        degreesOfFreedom,
        correlation,
      };
    });
  }

  /** c'beta averaged over the correlation, its variance with that of the average. */
  estimate(c: ArrayLike<number>): Estimated {
    const parts = this.#fits.map(({ fit, weight }) => ({ weight, ...this.#errorOf(fit, c) }));
    return this.#averaged(parts, (mean) => this.#back(mean, c), this.#unit ** 2);
  }

  /** ln sigma averaged over the correlation, its variance with that of the average. */
  get logSd(): Estimated {
    const parts = this.#fits.map(({ fit, weight }) => {
      const at = meanOf(fit, this.#first);
      const [mm, ms, ss] = at.information;
      return { weight, mean: Math.log(worthOf(at).sd), variance: mm / (mm * ss - ms * ms) };
    });
    return this.#averaged(parts, (mean) => mean + Math.log(this.#unit), 1);
  }

  #errorOf(
    fit: FitAtCorrelation,
    c: ArrayLike<number>,
  ): { readonly mean: number; readonly variance: number } {
    const at = meanOf(fit, c);
    const [mm, ms, ss] = at.information;
    return { mean: at.mean, variance: ((worthOf(at).sd / at.sd) ** 2 * ss) / (mm * ss - ms * ms) };
  }

  #averaged(
    parts: readonly { readonly weight: number; readonly mean: number; readonly variance: number }[],
    back: (mean: number) => number,
    scale: number,
  ): Estimated {
    const over = (of: (part: (typeof parts)[number]) => number): number =>
      parts.reduce((sum, part) => sum + part.weight * of(part), 0);
    const mean = over((part) => part.mean);
    return {
      value: back(mean),
      variance: scale * over((part) => part.variance + (part.mean - mean) ** 2),
      degrees: this.layout.between,
    };
  }

  get #first(): Float64Array {
    const c = new Float64Array(this.#mode.effects.length);
    c[0] = 1;
    return c;
  }

  /** From centred and scaled values: the centre counts once for every cell in c. */
  #back(value: number, c: ArrayLike<number>): number {
    let inCells = 0;
    for (let j = 0; j < this.#cells; j += 1) inCells += c[j]!;
    return this.#centre * inCells + this.#unit * value;
  }
}
