import { logGamma } from "../special/gamma-function";
import type { Distribution } from "./distribution";
import { requirePositive, requireProbability } from "./distribution";

/**
 * Two-parameter Weibull distribution (smallest values): P(X ≤ x) = 1 − exp[−(x/λ)^k], x ≥ 0.
 *
 * Closed forms throughout; accuracy 1e-14.
 * @param shape k > 0
 * @param scale λ > 0, in the unit of x
 * @example weibull(10, 100).quantile(0.05) // 74.3…
 */
export function weibull(shape: number, scale: number = 1): Distribution {
  requirePositive(shape, "shape", "weibull");
  requirePositive(scale, "scale", "weibull");
  const mean = scale * Math.exp(logGamma(1 + 1 / shape));
  const cov2 = Math.expm1(logGamma(1 + 2 / shape) - 2 * logGamma(1 + 1 / shape));
  const h = (x: number): number => (x <= 0 ? 0 : Math.pow(x / scale, shape));
  const logPdf = (x: number): number => {
    if (x < 0) return -Infinity;
    if (x === 0) return shape === 1 ? -Math.log(scale) : shape < 1 ? Infinity : -Infinity;
    return Math.log(shape / scale) + (shape - 1) * Math.log(x / scale) - h(x);
  };
  return {
    name: `Weibull (shape ${shape}, scale ${scale})`,
    range: [0, Infinity],
    mean,
    sd: mean * Math.sqrt(cov2),
    pdf: (x) => Math.exp(logPdf(x)),
    logPdf,
    cdf: (x) => -Math.expm1(-h(x)),
    upperTail: (x) => Math.exp(-h(x)),
    logCdf: (x) => (h(x) > 0.69 ? Math.log1p(-Math.exp(-h(x))) : Math.log(-Math.expm1(-h(x)))),
    logUpperTail: (x) => 0 - h(x),
    quantile: (p) => {
      requireProbability(p, "weibull.quantile");
      return scale * Math.pow(-Math.log1p(-p), 1 / shape);
    },
    upperQuantile: (p) => {
      requireProbability(p, "weibull.upperQuantile");
      return scale * Math.pow(0 - Math.log(p), 1 / shape);
    },
  };
}
