import { chiSquared } from "../distributions/chi-squared";
import { toleranceFactor } from "../tolerance/tolerance-factor";
import { informationAt } from "./censored-information";
import type { CensoredMaximum } from "./censored-likelihood";
import { multiplier } from "./censored-parameters";
import { profileOfQuantile, whereProfileFalls } from "./censored-profile";
import { clusterCovariance } from "./cluster-covariance";
import { clusterJackknife, type ClusterJackknife } from "./cluster-jackknife";
import type { CharacteristicMethod } from "./characteristic-question";
import type { BoundQuestion } from "./bound-question";
import { pivotQuantile } from "./pivot-bootstrap";

/** The lower bound of the fractile by one method; null where the bootstrap fails. */
export function boundBy(method: CharacteristicMethod, question: BoundQuestion): number | null {
  const { sample, law, maximum, z, confidence } = question;
  const n = sample.y.length;
  const estimate = maximum.coefficients[0]! + z * maximum.sigma;
  const information = (): ReturnType<typeof informationAt> =>
    informationAt({ ...sample, columns: [new Float64Array(n).fill(1)] }, law, maximum);
  /** Standard error of location + z sigma from the covariance of (location, ln sigma). */
  const standardError = (c: Float64Array): number =>
    Math.sqrt(
      Math.max(0, c[0]! + 2 * z * maximum.sigma * c[1]! + (z * maximum.sigma) ** 2 * c[3]!),
    );
  switch (method) {
    case "exact":
      return (
        maximum.coefficients[0]! -
        toleranceFactor({ n, fractile: question.fractile, confidence }) *
          maximum.sigma *
          Math.sqrt(n / (n - 1))
      );
    case "clusters": {
      const jackknife = question.weibull ? null : clusterJackknife(sample, law, question.clusters!);
      if (jackknife !== null)
        return boundFromSeries(maximum, jackknife, n, question.fractile, confidence);
      const robust = clusterCovariance(sample, law, information(), question.clusters!, "jackknife");
      return estimate - multiplier(1 - confidence, robust.count) * standardError(robust.covariance);
    }
    case "likelihood": {
      if (confidence === 0.5) return estimate;
      const drop = chiSquared(1).quantile(Math.abs(2 * confidence - 1)) / 2;
      const step = (confidence > 0.5 ? -1 : 1) * standardError(information().covariance);
      return whereProfileFalls(
        (q) => profileOfQuantile(sample, law, q, z, maximum.sigma).value,
        estimate,
        step,
        maximum.logLikelihood - drop,
      );
    }
    case "pivot_bootstrap": {
      const pivot = pivotQuantile(question, estimate);
      return pivot === null ? null : estimate - pivot * maximum.sigma;
    }
  }
}

/**
 * location − K σ with the exact factor of as many independent tests, and as many degrees of freedom
 * of the SD, as the series are worth: n' = σ²/var(location), ν' = 1/(2 var(ln σ)), variances by
 * omitting one series at a time, both held to what G series and n tests can give; σ is freed of
 * its first-order bias. Simulated coverage: see the tests.
 */
function boundFromSeries(
  maximum: CensoredMaximum,
  { covariance, count, meanLogScale }: ClusterJackknife,
  n: number,
  fractile: number,
  confidence: number,
): number {
  const sigma = Math.exp(count * Math.log(maximum.sigma) - (count - 1) * meanLogScale);
  const worth = Math.max(1, Math.min(n, (sigma * sigma) / covariance[0]!));
  const degreesOfFreedom = Math.max(count - 1, Math.min(n - 1, 1 / (2 * covariance[3]!)));
  return (
    maximum.coefficients[0]! -
    toleranceFactor({ n: worth, degreesOfFreedom, fractile, confidence }) * sigma
  );
}
