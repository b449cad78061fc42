import { fitCensored, normal } from "../../statistics";
import type { ErrorTerms } from "./error-terms";

const STANDARD = normal();

/**
 * Bias and error terms where some tests are lower bounds (the bar broke before the mode of
 * interest): an extension of our own, EN 1990 knows no such tests. ln(r_e / r_t) ~ N(μ, σ), a
 * failure adds ln f, a lower bound ln S (maximum likelihood of a right-censored sample). s² = σ²
 * m/(m − 1) with m failures. b = Σ r̂_e r_t / Σ r_t² as in the annex, with a lower bound c at its
 * expected value r̂_e = r_t E[r_e / r_t | above c] = r_t exp(μ + s²/2) Φ(s − z) / Φ(−z), z = (ln c
 * − μ)/s. Where nothing is censored b and V_δ are those of the annex.
 *
 * It holds where what ended the test had nothing to do with the strength that was still to come.
 * @returns the terms, δ of the failures only, or why there are none
 * @throws RangeError for columns of different length or a value not above zero
 * @example censoredErrorTermsOf([52, 61, 40, 75], [50, 60, 42, 70], [false, true, false, false])
 */
export function censoredErrorTermsOf(
  experimental: ArrayLike<number>,
  theoretical: ArrayLike<number>,
  lowerBounds: ArrayLike<boolean>,
): ErrorTerms | string {
  const n = experimental.length;
  if (theoretical.length !== n || lowerBounds.length !== n)
    throw new RangeError(
      `censoredErrorTermsOf: ${n} experimental, ${theoretical.length} theoretical values and ${lowerBounds.length} marks, expected equal numbers`,
    );
  const ratios = Array.from({ length: n }, (_, i) => {
    const [re, rt] = [experimental[i] ?? NaN, theoretical[i] ?? NaN];
    if (!(re > 0 && rt > 0 && Number.isFinite(re) && Number.isFinite(rt)))
      throw new RangeError(
        `censoredErrorTermsOf: test ${i + 1} has r_e ${re} and r_t ${rt}, expected positive numbers`,
      );
    return re / rt;
  });
  const fit = fitCensored({ values: ratios, censored: lowerBounds, distribution: "lognormal" });
  if (fit.status === "cannot be estimated") return fit.reading;
  const sdLog = fit.scale * Math.sqrt(fit.failures / (fit.failures - 1));
  let [cross, square] = [0, 0];
  ratios.forEach((ratio, i) => {
    const rt = theoretical[i] ?? NaN;
    cross += (lowerBounds[i] ? expectedAbove(ratio, fit.location, sdLog) : ratio) * rt * rt;
    square += rt * rt;
  });
  const b = cross / square;
  const failed = ratios.filter((_, i) => !lowerBounds[i]);
  const delta = failed.map((ratio) => ratio / b);
  return {
    b,
    meanRatio: failed.reduce((sum, ratio) => sum + ratio, 0) / failed.length,
    delta,
    meanLog: fit.location - Math.log(b),
    sdLog,
    cov: Math.sqrt(Math.expm1(sdLog * sdLog)),
  };
}

/** Mean of a log-normal variable above a bound; by logarithms, since both tails may be tiny. */
function expectedAbove(bound: number, meanLog: number, sdLog: number): number {
  const z = (Math.log(bound) - meanLog) / sdLog;
  return Math.exp(meanLog + 0.5 * sdLog * sdLog + STANDARD.logCdf(sdLog - z) - STANDARD.logCdf(-z));
}
