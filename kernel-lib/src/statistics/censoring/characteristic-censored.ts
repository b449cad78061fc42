import { createRandom } from "../random";
import { percent, significant } from "../reading";
import { requireShares, type NotEstimable, type NotEstimableReason } from "../result";
import { NoMaximumError } from "./censored-likelihood";
import { notEstimableFrom, gatherCensored } from "./censored-sample";
import { basisWords, censoringWarnings } from "./censored-words";
import { maximumOf } from "./censored-maximum";
import { lawOf } from "./location-scale-law";
import type {
  CharacteristicCensoredInput,
  CharacteristicCensored,
  CharacteristicMethod,
} from "./characteristic-question";
import { boundBy } from "./characteristic-bound";

/**
 * Characteristic value (lower confidence bound of a fractile) of a right-censored sample.
 *
 * @returns the value, or "cannot be estimated" with what is needed
 * @throws RangeError for fractile or confidence outside 0 to 1, or columns of different length
 * @example characteristicCensored({ values, censored, distribution: "lognormal" }).reading
 */
export function characteristicCensored(
  input: CharacteristicCensoredInput,
): CharacteristicCensored | NotEstimable {
  const fractile = input.fractile ?? 0.05;
  const confidence = input.confidence ?? 0.9;
  requireShares("characteristicCensored", { fractile, confidence });
  const gathered = gatherCensored(input, input.distribution);
  const uncensored =
    gathered.failures === gathered.values.length && input.distribution !== "weibull";
  const method =
    input.method ??
    (input.clusters !== undefined ? "clusters" : uncensored ? "exact" : "pivot_bootstrap");
  const statement = {
    n: gathered.values.length,
    excluded: gathered.excluded,
    method: `Characteristic value, right-censored ${input.distribution}, ${METHOD_WORDS[method]}`,
  };
  const refuse = (reason: NotEstimableReason, needed: string): NotEstimable =>
    notEstimableFrom(gathered, statement.method, { reason, needed });
  if (gathered.lack !== null) return notEstimableFrom(gathered, statement.method, gathered.lack);
  if (method === "exact" && !uncensored)
    return refuse(
      "method does not apply",
      "an uncensored normal or lognormal sample for the exact factor",
    );
  if (method === "clusters" && gathered.clusters === null)
    return refuse(
      "method does not apply",
      "the series of each row, for a bound that includes the series effect",
    );
  const law = lawOf(input.distribution);
  const z = law.quantile(fractile);
  try {
    const maximum = maximumOf(gathered.sample, law);
    const location = maximum.coefficients[0]!;
    const bound = boundBy(method, {
      sample: gathered.sample,
      law,
      maximum,
      z,
      fractile,
      confidence,
      weibull: input.distribution === "weibull",
      clusters: gathered.clusters,
      resamples: input.resamples ?? 2000,
      random: createRandom(input.seed ?? "characteristic value"),
    });
    if (bound === null)
      return refuse(
        "too many failed resamples",
        "more failures (over a tenth of the resamples have fewer than two, so the uncertainty of the estimate cannot be determined)",
      );
    if (!Number.isFinite(bound))
      return refuse(
        "no finite bound",
        "more failures or a lower confidence (the likelihood does not decrease enough on the low side)",
      );
    const back = (x: number): number => (law.onLogs ? Math.exp(x) : x);
    const characteristic = back(bound);
    const warnings = censoringWarnings(gathered);
    if (method === "likelihood" && gathered.failures < 20)
      warnings.push(
        "The profile-likelihood bound is a large-sample method and is too high with few failures; prefer the pivot bootstrap",
      );
    if (method === "clusters")
      warnings.push(
        "The bound that includes the series effect is approximate: with few series that differ widely, its actual confidence is lower than stated",
      );
    if (characteristic <= 0)
      warnings.push(
        "The bound is not above 0: a lognormal or Weibull distribution, or more tests, would be needed for a usable value",
      );
    return {
      status: "ok",
      ...statement,
      warnings,
      characteristic,
      fractileEstimate: back(location + z * maximum.sigma),
      factor: (location - bound) / maximum.sigma,
      fractile,
      confidence,
      failures: gathered.failures,
      censoredCount: gathered.values.length - gathered.failures,
      assumptions: [
        `the failure values, including those of tests stopped early, follow a ${input.distribution} distribution`,
        "the reason for stopping a test early is independent of the load it would have reached in this mode",
        method === "clusters"
          ? "series are independent; values within a series may share an error"
          : "values are independent",
      ],
      reading: `With ${percent(confidence)} confidence the ${percent(fractile)} fractile is at least ${significant(characteristic)} (${basisWords(gathered)}; ${METHOD_WORDS[method]}).`,
    };
  } catch (error) {
    if (error instanceof NoMaximumError)
      return refuse(
        "no maximum",
        `failures from which the likelihood can estimate the scatter (${error.message})`,
      );
    throw error;
  }
}

const METHOD_WORDS: Record<CharacteristicMethod, string> = {
  exact: "exact noncentral-t factor",
  likelihood: "profile likelihood",
  pivot_bootstrap: "bootstrap of the pivot",
  clusters: "omitting one series at a time",
};
