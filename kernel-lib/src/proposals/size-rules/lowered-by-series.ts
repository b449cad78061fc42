import { characteristicBySeries, characteristicCensored } from "../../statistics";
import type { RatiosAlong } from "./censored-band";

export interface SeriesAlong extends RatiosAlong {
  readonly series: readonly string[];
  /** Exponent of the fitted median, ratio = a x^m. */
  readonly exponent: number;
}

/**
 * By how much the band of ln ratio along a variable is lowered because tests of one series are alike: the characteristic
 * value of the residuals ln ratio − m ln x with tests taken as independent less the one counted by series (never below 0),
 * times √(n h) where the leverage h of a line exceeds that of a mean, since the slope's error grows as the mean's does.
 *
 * Approximate: exact only for a line without slope. Null with fewer than 3 series that failed.
 */
export function loweredBySeries({ ratios, bounds, x, series, exponent, grid, fractile, confidence }: SeriesAlong): number[] | null {
  const logs = x.map(Math.log);
  const sample = { values: ratios.map((ratio, i) => Math.log(ratio) - exponent * (logs[i] ?? NaN)), censored: bounds, distribution: "normal", fractile, confidence } as const;
  const counted = characteristicBySeries({ ...sample, clusters: series });
  const alone = characteristicCensored({ ...sample, seed: "factor along a variable" });
  if (counted.status !== "ok" || alone.status !== "ok") return null;
  const taken = Math.max(0, alone.characteristic - counted.characteristic);
  const [n, centre] = [x.length, logs.reduce((sum, one) => sum + one, 0) / x.length];
  const spread = logs.reduce((sum, one) => sum + (one - centre) ** 2, 0);
  return grid.map((value) => taken * Math.sqrt(1 + (n * (Math.log(value) - centre) ** 2) / spread));
}
