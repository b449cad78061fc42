import { studentT } from "../statistics";
import type { Distribution } from "./judging/question";
import type { General } from "./judging/in-general";

/** Bias and scatter of a mean model, with 95 % intervals; null where they cannot be estimated. */
export interface BiasOfModel {
  readonly mean: number;
  readonly meanLower: number | null;
  readonly meanUpper: number | null;
  readonly cov: number | null;
  readonly covLower: number | null;
  readonly covUpper: number | null;
}

/**
 * Mean ratio and COV with 95 % intervals, series effect included where 3 series failed (one cell
 * only).
 */
export function biasOf(
  { mean, cov }: { readonly mean: number | null; readonly cov: number | null },
  general: General | null,
  distribution: Distribution,
): BiasOfModel | null {
  if (mean === null) return null;
  const none = { mean, meanLower: null, meanUpper: null, cov, covLower: null, covUpper: null };
  if (general === null || general.cells.length > 1 || cov === null || !(general.logSd.variance > 0))
    return none;
  const half = ({ variance, degrees }: { variance: number; degrees: number }): number =>
    studentT(degrees).quantile(0.975) * Math.sqrt(variance);
  const [ofMean, ofSd] = [half(general.mean), half(general.logSd)];
  const onLogs = distribution === "lognormal";
  const [meanLower, meanUpper] = onLogs
    ? [mean * Math.exp(-ofMean), mean * Math.exp(ofMean)]
    : [mean - ofMean, mean + ofMean];
  return {
    mean,
    meanLower,
    meanUpper,
    cov,
    covLower: cov * Math.exp(-ofSd),
    covUpper: cov * Math.exp(ofSd),
  };
}
