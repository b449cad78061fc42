import { NoMaximumError } from "../censoring/censored-likelihood";
import { gaussLegendre } from "../special/quadrature";
import type { FitsOf } from "./fit-at-correlation";
import type { FitAtCorrelation } from "./fit-with-lower-bounds";
import type { Correlation } from "./lower-bound-terms";
import type { Layout } from "./tests-in-series";

/** A fit with what the tests make of its correlation; weights sum to 1. */
export interface WeightedFit {
  readonly fit: FitAtCorrelation;
  readonly weight: number;
}

/** The fits over the correlation, and the one at its most likely value. */
export interface FitsOverCorrelation {
  readonly fits: readonly WeightedFit[];
  readonly mode: FitAtCorrelation;
}

/**
 * Drop of the log-likelihood at which weights vanish (1e-8; 1e-5 where each fit is a search), and
 * at which a missing fit changes nothing shown.
 */
const [NEGLIGIBLE, SMALL] = [{ exact: 18, search: 12 }, 7] as const;
/**
 * Largest ln(E MS_between/E MS_within) looked at; series closer together count as single tests
 * (`all-but-equal.ts`).
 */
const FARTHEST = 36;
/**
 * Nodes of each panel, and the panels on each side of the mode as shares of the reach: a bell and a
 * slow exponential both fit.
 */
const NODES = { exact: 7, laplace: 5 } as const;
const PANELS = [
  [0, 1 / 9],
  [1 / 9, 1 / 3],
  [1 / 3, 1],
] as const;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Fits over the intraclass correlation rho, weighted by what the tests say of it: an approximate
 * Bayesian mixture.
 *
 * rho is carried as t = ln(E MS_between/E MS_within) = ln(1 + n0 rho/(1 - rho)), in which the usual
 * vague prior of a one-way layout, 1/(s_e^2 (s_e^2 + n0 s_b^2)), is uniform (Box and Tiao 1973). A
 * law of t that the tests put below 0 has rho = 0: the point there gets the weight of the lower
 * half of ln F, sqrt(pi/2) times its SD sqrt(2/(degrees between) + 2/(degrees within)). Without
 * that point a few series would too rarely be taken as uncorrelated and the bound would lie
 * needlessly low.
 *
 * The nodes lie where the weight is: the mode of the integrated likelihood is found first, then how
 * far it reaches on both sides, and each side is covered by three Gauss-Legendre panels. With many
 * series the weight is only 0.1 to 0.35 wide.
 * @param settings lowerBounds: whether there are any; the fits are then by search, and fewer of
 *   them are made
 */
export function fitsOverCorrelation(
  layout: Layout,
  fitAt: FitsOf,
  settings: { readonly lowerBounds: boolean },
): FitsOverCorrelation {
  const { typicalSize, between, within, failures, failedSeries } = layout;
  const at = (t: number): FitAtCorrelation => fitAt(correlationAt(t, typicalSize));
  const uncorrelated = at(0);
  // With one failure a series nothing separates the scatter within from that between, and nothing
  // depends on it.
  if (failures === failedSeries || between < 1 || within < 1)
    return { fits: [{ fit: uncorrelated, weight: 1 }], mode: uncorrelated };
  const likelihood = new Likelihood(
    at,
    uncorrelated,
    settings.lowerBounds ? NEGLIGIBLE.search : NEGLIGIBLE.exact,
  );
  const { left, mode, right } = likelihood.reach(settings.lowerBounds ? 3e-3 : 1e-6);
  const all = [
    { fit: uncorrelated, measure: Math.sqrt(Math.PI / 2) * Math.sqrt(2 / between + 2 / within) },
  ];
  for (const end of [left, right]) {
    for (const [from, to] of PANELS) {
      // From the mode outwards, so that each fit starts near the one before.
      const panel = nodesBetween(
        mode + from * (end - mode),
        mode + to * (end - mode),
        settings.lowerBounds ? NODES.laplace : NODES.exact,
      );
      for (const { t, measure } of panel) {
        const fit = likelihood.fit(t);
        if (fit !== null) all.push({ fit, measure });
      }
    }
  }
  const top = all.reduce((best, { fit }) => Math.max(best, fit.logIntegrated), -Infinity);
  const raw = all.map(({ fit, measure }) => measure * Math.exp(fit.logIntegrated - top));
  const whole = raw.reduce((sum, one) => sum + one, 0);
  return {
    fits: all.map(({ fit }, i) => ({ fit, weight: raw[i]! / whole })),
    mode: likelihood.best,
  };
}

/** Gauss-Legendre nodes between two values of t, in order from the first to the second. */
function nodesBetween(
  from: number,
  to: number,
  count: number,
): { readonly t: number; readonly measure: number }[] {
  if (from === to) return [];
  const { nodes, weights } = gaussLegendre(count);
  const order = Array.from(nodes.keys()).sort((i, j) => nodes[i]! - nodes[j]!);
  return order.map((i) => ({
    t: from + ((to - from) * (1 + nodes[i]!)) / 2,
    measure: (weights[i]! * Math.abs(to - from)) / 2,
  }));
}

/** The integrated likelihood over t, with the best fit seen. */
class Likelihood {
  readonly #at: (t: number) => FitAtCorrelation;
  #best: FitAtCorrelation;
  #mode = 0;

  readonly #negligible: number;

  constructor(
    at: (t: number) => FitAtCorrelation,
    uncorrelated: FitAtCorrelation,
    negligible: number,
  ) {
    [this.#at, this.#best, this.#negligible] = [at, uncorrelated, negligible];
  }

  get best(): FitAtCorrelation {
    return this.#best;
  }

  /** Null where no fit exists so far from the mode that nothing depends on it. */
  fit(t: number): FitAtCorrelation | null {
    try {
      const fit = this.#at(t);
      if (fit.logIntegrated > this.#best.logIntegrated) [this.#best, this.#mode] = [fit, t];
      return fit;
    } catch (error) {
      if (error instanceof NoMaximumError && this.#lost) return null;
      throw error;
    }
  }

  #previous = 0;
  get #lost(): boolean {
    return this.#previous < this.#best.logIntegrated - SMALL;
  }

  #value(t: number): number {
    const value = this.fit(t)?.logIntegrated ?? -Infinity;
    this.#previous = value;
    return value;
  }

  /**
   * The mode of the integrated likelihood over t >= 0, and how far on each side it stays above what
   * is negligible.
   */
  reach(tolerance: number): { left: number; mode: number; right: number } {
    const values = [{ t: 0, value: this.#best.logIntegrated }];
    this.#previous = this.#best.logIntegrated;
    // Upwards in growing steps until the likelihood has fallen away.
    for (let t = 0.25; t < FARTHEST; t += t < 1.9 ? 0.25 : t < 4 ? 0.5 : 1) {
      const value = this.#value(t);
      values.push({ t, value });
      if (value < this.#best.logIntegrated - this.#negligible) break;
    }
    // A likelihood that never falls away is that of series without any scatter of their own.
    const last = values[values.length - 1]!;
    if (last.value > this.#best.logIntegrated - SMALL)
      throw new NoMaximumError(
        "The tests of each series are almost equal or almost on the fitted line: check whether they are separate results",
      );
    const top = values.reduce((best, { value }, i) => (value > values[best]!.value ? i : best), 0);
    const mode = this.#peak(
      values[Math.max(0, top - 1)]!.t,
      values[Math.min(values.length - 1, top + 1)]!.t,
      values[top]!,
      tolerance,
    );
    const cut = this.#best.logIntegrated - this.#negligible;
    const below = [...values].reverse().find(({ t, value }) => t < mode && value < cut);
    const inside = (side: 1 | -1): number =>
      values.reduce((end, { t, value }) => (value >= cut && side * (t - end) > 0 ? t : end), mode);
    const left = below === undefined ? 0 : this.#crossing(below.t, inside(-1), cut);
    const beyond = values.find(({ t, value }) => t > mode && value < cut);
    const right =
      beyond === undefined
        ? values[values.length - 1]!.t
        : this.#crossing(beyond.t, inside(1), cut);
    return { left, mode, right };
  }

  /** Golden section; without lower bounds this is the maximum of restricted maximum likelihood. */
  #peak(
    from: number,
    to: number,
    start: { readonly t: number; readonly value: number },
    tolerance: number,
  ): number {
    let [low, high] = [from, to];
    let [a, b] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    let [fa, fb] = [this.#value(a), this.#value(b)];
    while (high - low > tolerance * Math.max(1, high)) {
      if (fa >= fb) {
        [high, b, fb] = [b, a, fa];
        a = high - GOLDEN * (high - low);
        fa = this.#value(a);
      } else {
        [low, a, fa] = [a, b, fb];
        b = low + GOLDEN * (high - low);
        fb = this.#value(b);
      }
    }
    return this.#best.logIntegrated > start.value ? this.#mode : start.t;
  }

  /**
   * Where the likelihood crosses the cut between a point outside and one inside, to a sixteenth of
   * their distance.
   */
  #crossing(outside: number, inside: number, cut: number): number {
    let [out, within] = [outside, inside];
    for (let step = 0; step < 4; step += 1) {
      const middle = (out + within) / 2;
      if (this.#value(middle) < cut) out = middle;
      else within = middle;
    }
    return out;
  }
}

/** rho at t = ln(1 + n0 rho/(1 - rho)), with 1 - rho to full digits. */
export function correlationAt(t: number, typicalSize: number): Correlation {
  const ratio = Math.expm1(t) / typicalSize;
  return { value: ratio / (1 + ratio), rest: 1 / (1 + ratio) };
}
