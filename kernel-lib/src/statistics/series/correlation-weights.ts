import { NoMaximumError } from "../censoring/censored-likelihood";
import { gaussLegendre } from "../special/quadrature";
import { fitAtCorrelation, type FitAtCorrelation } from "./fit-at-correlation";
import type { WeightedFit } from "./mixture-bound";
import { layoutOf, type SeriesOfTests } from "./series-of-tests";

const [NODES, FARTHEST] = [32, 14] as const;
/** Drops of the log-likelihood at which weights vanish (2e-9), and at which a missing fit changes nothing one could print. */
const [NEGLIGIBLE, SMALL] = [20, 7] as const;

/**
 * Fits over the intraclass correlation ρ, weighted by what the tests say of it.
 *
 * ρ is carried as t = ln(E MS_between / E MS_within) = ln(1 + n₀ ρ/(1 − ρ)), in which the usual vague prior of a one-way
 * layout, 1/(σ_e² (σ_e² + n₀ σ_b²)), is uniform (Box and Tiao 1973). A law of t that the tests put below 0 has ρ = 0:
 * the point there gets the weight of the lower half of ln F, √(π/2) times its SD √(2/(k − 1) + 2/(n − k)). Without that
 * point few series would be taken as alike too rarely and the bound would lie needlessly low.
 *
 * @param start of the fits, for standardised values
 */
export function weightedFits(series: readonly SeriesOfTests[], start: { readonly mean: number; readonly sd: number }): WeightedFit[] {
  const { failures, groups, typicalSize } = layoutOf(series);
  let from: FitAtCorrelation = { correlation: 0, ...start, information: [1, 0, 1], logIntegrated: 0 };
  return weightedOver({ typicalSize, single: failures === groups, degrees: [groups - 1, failures - groups] }, (correlation) => {
    from = fitAtCorrelation(series, correlation, from);
    return from;
  });
}

/** What of a layout of series the weights hang on. */
interface Layout {
  readonly typicalSize: number;
  /** One test a series. */
  readonly single: boolean;
  /** Degrees of freedom between and within series. */
  readonly degrees: readonly [between: number, within: number];
}

/** The same for any model that is fitted at one correlation after the other, from 0 upwards. */
export function weightedOver({ typicalSize, single, degrees }: Layout, fitOf: (correlation: number) => FitAtCorrelation): WeightedFit[] {
  const fitAt = (t: number): FitAtCorrelation => fitOf(correlationAt(t, typicalSize));
  const alike = fitAt(0);
  let before = alike;
  // With one failure a series nothing tells within from between, and nothing hangs on it.
  if (single) return [{ fit: alike, weight: 1 }];
  const { nodes, weights } = gaussLegendre(NODES);
  // Squared nodes lie closer together near ρ = 0.
  const all = [{ fit: alike, measure: Math.sqrt(Math.PI / 2) * Math.sqrt(2 / degrees[0] + 2 / degrees[1]) }];
  let top = alike.logIntegrated;
  const order = Array.from(nodes.keys()).sort((i, j) => (nodes[i] ?? NaN) - (nodes[j] ?? NaN));
  for (const i of order) {
    const x = (1 + (nodes[i] ?? NaN)) / 2;
    const fit = orNegligible(() => fitAt(FARTHEST * x * x), before.logIntegrated - top);
    if (fit === null) break;
    before = fit;
    all.push({ fit, measure: (weights[i] ?? NaN) * FARTHEST * x });
    top = Math.max(top, fit.logIntegrated);
    if (fit.logIntegrated < top - NEGLIGIBLE) break;
  }
  const raw = all.map(({ fit, measure }) => measure * Math.exp(fit.logIntegrated - top));
  const whole = raw.reduce((sum, one) => sum + one, 0);
  return all.map(({ fit }, i) => ({ fit, weight: (raw[i] ?? NaN) / whole }));
}

/** Null where a fit does not exist so far from the likeliest correlation that nothing hangs on it. */
function orNegligible(fit: () => FitAtCorrelation, before: number): FitAtCorrelation | null {
  try {
    return fit();
  } catch (error) {
    if (error instanceof NoMaximumError && before < -SMALL) return null;
    throw error;
  }
}

/** ρ at t = ln(1 + n₀ ρ/(1 − ρ)). */
export function correlationAt(t: number, typicalSize: number): number {
  const ratio = Math.expm1(t) / typicalSize;
  return ratio / (1 + ratio);
}
