import { logNormalIntegral, normalIntegral, normalQuantile } from "../special/normal-integral";
import type { Distribution } from "./distribution";
import { requireFinite, requirePositive } from "./distribution";

const LOG_SQRT_TWO_PI = 0.9189385332046727418;

/**
 * Lognormal distribution: ln X is normal with mean `meanLog` and standard deviation `sdLog`.
 *
 * E X = exp(μ + σ²/2), COV = √(exp σ² − 1). Accuracy: cdf, tails 1e-15 in z; quantile 1e-15 · (1 +
 * |z| σ).
 * @throws RangeError for sdLog ≤ 0
 * @example lognormal(0, 0.2).quantile(0.05) // 0.7196…
 */
export function lognormal(meanLog: number = 0, sdLog: number = 1): Distribution {
  requireFinite(meanLog, "meanLog", "lognormal");
  requirePositive(sdLog, "sdLog", "lognormal");
  const mean = Math.exp(meanLog + 0.5 * sdLog * sdLog);
  const z = (x: number): number =>
    x > 0 ? (Math.log(x) - meanLog) / sdLog : Number.isNaN(x) ? NaN : -Infinity;
  const logPdf = (x: number): number =>
    x <= 0 ? -Infinity : -0.5 * z(x) * z(x) - LOG_SQRT_TWO_PI - Math.log(sdLog) - Math.log(x);
  return {
    name: `lognormal (mean of ln ${meanLog}, SD of ln ${sdLog})`,
    range: [0, Infinity],
    mean,
    sd: mean * Math.sqrt(Math.expm1(sdLog * sdLog)),
    pdf: (x) => Math.exp(logPdf(x)),
    logPdf,
    cdf: (x) => normalIntegral(z(x)),
    upperTail: (x) => normalIntegral(-z(x)),
    logCdf: (x) => logNormalIntegral(z(x)),
    logUpperTail: (x) => logNormalIntegral(-z(x)),
    quantile: (p) => Math.exp(meanLog + sdLog * normalQuantile(p)),
    upperQuantile: (p) => Math.exp(meanLog - sdLog * normalQuantile(p)),
  };
}
