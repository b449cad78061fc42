import { correlationAt } from "./correlation-weights";
import { fitAtCorrelation, type FitAtCorrelation } from "./fit-at-correlation";
import type { WeightedFit } from "./mixture-bound";
import type { SeriesOfTests } from "./series-of-tests";

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The fit at the correlation of the highest integrated likelihood, which without lower bounds is that of restricted
 * maximum likelihood: by golden section between the neighbours of the best of the fits at hand, to 1e-6 of ln(1 + n₀ ρ/(1 − ρ)).
 */
export function likeliestFit(series: readonly SeriesOfTests[], fits: readonly WeightedFit[], typicalSize: number): FitAtCorrelation {
  const sorted = fits.map(({ fit }) => fit).sort((a, b) => a.correlation - b.correlation);
  const best = sorted.reduce((at, fit, i) => (fit.logIntegrated > (sorted[at]?.logIntegrated ?? -Infinity) ? i : at), 0);
  const highest = sorted[best];
  if (highest === undefined || sorted.length === 1) return fits[0]!.fit;
  const tOf = (fit: FitAtCorrelation | undefined): number => (fit ? Math.log1p((typicalSize * fit.correlation) / (1 - fit.correlation)) : NaN);
  let [low, high] = [tOf(sorted[Math.max(0, best - 1)]), tOf(sorted[Math.min(sorted.length - 1, best + 1)])];
  const fitAt = (t: number): FitAtCorrelation => fitAtCorrelation(series, correlationAt(t, typicalSize), highest);
  let [a, b] = [fitAt(high - GOLDEN * (high - low)), fitAt(low + GOLDEN * (high - low))];
  while (high - low > 1e-6) {
    if (a.logIntegrated >= b.logIntegrated) {
      high = low + GOLDEN * (high - low);
      b = a;
      a = fitAt(high - GOLDEN * (high - low));
    } else {
      low = high - GOLDEN * (high - low);
      a = b;
      b = fitAt(low + GOLDEN * (high - low));
    }
  }
  const found = a.logIntegrated >= b.logIntegrated ? a : b;
  // At the edge the search only comes near to 0; the fit there is at hand.
  return found.logIntegrated > highest.logIntegrated ? found : highest;
}
