import { counted, percent, significant } from "../reading";
import type { CensoredParameter } from "./censored-parameters";
import { CLUSTER_WORDS, clusterWarnings, type ClusterMethod } from "./cluster-covariance";
import type { CensoredSetAside, GatheredSample } from "./censored-sample";
import type { CensoredDistribution } from "./location-scale-law";

/** What every result of this folder says of itself. */
export interface CensoredStatement {
  readonly method: string;
  readonly assumptions: readonly string[];
  /** Rows used, censored ones included. */
  readonly n: number;
  readonly excluded: readonly CensoredSetAside[];
  readonly warnings: readonly string[];
  /** One sentence that says what was found. */
  readonly reading: string;
}

/** "12 tests, 5 of them only lower bounds; 1 row excluded". */
export function basisWords(
  gathered: Pick<GatheredSample, "values" | "failures" | "excluded">,
): string {
  const n = gathered.values.length;
  const bounds = n - gathered.failures;
  const censored =
    bounds === 0
      ? ", none censored"
      : `, ${bounds} of them only ${bounds === 1 ? "a lower bound" : "lower bounds"}`;
  return `${counted(n, "value")}${censored}${gathered.excluded.length > 0 ? `; ${counted(gathered.excluded.length, "row")} excluded` : ""}`;
}

/** Cautions that rest on how much is censored; the limits are common practice, no source. */
export function censoringWarnings(gathered: Pick<GatheredSample, "values" | "failures">): string[] {
  const n = gathered.values.length;
  const share = 1 - gathered.failures / n;
  const warnings: string[] = [];
  if (gathered.failures < 5)
    warnings.push(
      `Only ${counted(gathered.failures, "failure")} in this mode: estimates and intervals are approximate below 5 (common practice, no source)`,
    );
  if (share > 0.5)
    warnings.push(
      `${percent(share, 0)} of the values are only lower bounds: the result depends more on the assumed distribution than on the tests (above half; common practice, no source)`,
    );
  return warnings;
}

export interface FitFacts {
  readonly gathered: GatheredSample;
  readonly distribution: CensoredDistribution;
  readonly moments: { readonly mean: number; readonly cov: number; readonly sd: number };
  readonly parameters: readonly CensoredParameter[];
  /** How many clusters and how their standard errors were found; null for independent rows. */
  readonly robust: { readonly count: number; readonly method: ClusterMethod } | null;
  readonly confidence: number;
}

/** Method, assumptions, warnings and reading of a censored fit. */
export function describeFit(facts: FitFacts): CensoredStatement {
  const { gathered, distribution, robust, moments } = facts;
  const [first, second] = facts.parameters;
  const intervals = [first, second]
    .filter((p) => p !== undefined)
    .map(
      (p) =>
        `${p.name} ${significant(p.estimate)} (${percent(facts.confidence)} interval ${significant(p.lower)} to ${significant(p.upper)})`,
    );
  return {
    method: `Maximum likelihood, right-censored ${distribution}, ${robust === null ? "profile-likelihood intervals" : `${CLUSTER_WORDS[robust.method]} (${robust.count} clusters), t on ${robust.count - 1}`}`,
    assumptions: [
      `the failure values, including those of tests stopped early, follow a ${distribution} distribution`,
      "the reason for stopping a test early is independent of the load it would have reached in this mode",
      robust === null
        ? "values are independent"
        : "series are independent; values within a series may share an error",
    ],
    n: gathered.values.length,
    excluded: gathered.excluded,
    warnings: [...censoringWarnings(gathered), ...(robust === null ? [] : clusterWarnings(robust))],
    reading: `The ${distribution} distribution of best fit has mean ${significant(moments.mean)} and COV ${percent(moments.cov)}: ${intervals.join(", ")} (${basisWords(gathered)}).`,
  };
}
