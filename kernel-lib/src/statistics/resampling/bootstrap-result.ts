import { requireShares } from "../result";
import { counted, intervalWords, significant, capitalised } from "../reading";
import {
  bcaInterval,
  jackknifeInfluence,
  percentileInterval,
  type BootstrapInterval,
} from "./bootstrap-interval";
import type { ResamplePlan } from "./resample-plan";

export interface BootstrapOptions {
  /** Number of resamples; default 10,000. */
  readonly resamples?: number;
  readonly seed: number | string;
  /** Default "bca". */
  readonly method?: "percentile" | "bca";
  /** Default 0.95. */
  readonly confidence?: number;
  /** Resample within each stratum, keeping its size. */
  readonly strata?: ArrayLike<string | number>;
  /** Resample whole clusters (studies, series) instead of rows. */
  readonly clusters?: ArrayLike<string | number>;
  /** What the statistic is, for the reading; default "the statistic". */
  readonly name?: string;
  /** Called about a hundred times with the share done, 0 to 1. */
  readonly onProgress?: (share: number) => void;
}

export interface Bootstrap extends BootstrapInterval {
  readonly method: string;
  readonly assumptions: readonly string[];
  /** Rows of the data used. */
  readonly n: number;
  /** Rows with a missing value that were left out. */
  readonly excluded: readonly { readonly row: number; readonly reason: string }[];
  readonly warnings: readonly string[];
  readonly reading: string;
  /** The statistic of the data. */
  readonly observed: number;
  /** Replicates in rising order; those without a finite value are left out and counted. */
  readonly replicates: Float64Array;
  readonly resamples: number;
  readonly failedResamples: number;
  readonly standardError: number;
  /** Mean of the replicates less the observed value. */
  readonly bias: number;
  readonly confidence: number;
  readonly seed: number | string;
}

/** What a bootstrap is made of, whatever the statistic is fed with. */
export interface BootstrapParts {
  readonly plan: ResamplePlan;
  /** The statistic of the data. */
  readonly observed: number;
  readonly options: BootstrapOptions;
  /**
   * Starts the stream of resamples; each call of what it returns gives the statistic of the next.
   */
  readonly drawReplicate: () => () => number;
  /** The statistic without each unit in turn. */
  readonly leftOut: () => Float64Array;
}

/**
 * Draws the replicates and makes interval, standard error, bias and words of them.
 *
 * @throws RangeError for an observed value that is not finite, or fewer than two finite replicates
 */
export function bootstrapResult({
  plan,
  observed,
  options,
  drawReplicate,
  leftOut,
}: BootstrapParts): Bootstrap {
  const { rows } = plan;
  const resamples = options.resamples ?? 10_000;
  const confidence = options.confidence ?? 0.95;
  if (!Number.isInteger(resamples) || resamples < 100)
    throw new RangeError(
      `Bootstrap: resamples is ${resamples}, expected a whole number of at least 100`,
    );
  requireShares("Bootstrap", { confidence });
  if (!Number.isFinite(observed))
    throw new RangeError(
      `Bootstrap: the statistic of the data is ${observed}, expected a finite number`,
    );
  const replicates = replicatesOf(drawReplicate(), resamples, options);
  if (replicates.length < 2)
    throw new RangeError(
      `Bootstrap: only ${replicates.length} of ${resamples} resamples gave a finite value, expected at least 2`,
    );
  const wanted = options.method ?? "bca";
  const bca =
    wanted === "bca"
      ? bcaInterval(replicates, observed, jackknifeInfluence(leftOut(), plan.strata), confidence)
      : null;
  const interval = bca ?? percentileInterval(replicates, confidence);
  const { mean, sd } = momentsOf(replicates);
  const failedResamples = resamples - replicates.length;
  return {
    ...interval,
    observed,
    replicates,
    resamples,
    failedResamples,
    standardError: sd,
    bias: mean - observed,
    confidence,
    seed: options.seed,
    n: rows,
    excluded: [],
    method: `Bootstrap, ${bca === null ? "percentile" : "BCa"} interval, ${resamples} resamples of ${plan.clustered ? `${plan.units.length} clusters` : "rows"}${plan.strata.length > 1 ? ` within ${plan.strata.length} strata` : ""}, seed ${String(options.seed)}`,
    assumptions: [
      plan.clustered
        ? "clusters are independent samples of the population they represent"
        : "rows are independent samples of the population they represent",
      "the sample represents the shape of its population; small samples underestimate its tails",
    ],
    warnings: warningsOf(plan, failedResamples, resamples, sd, wanted === "bca" && bca === null),
    reading:
      sd === 0
        ? `Every resample gives ${options.name ?? "the statistic"} = ${significant(observed)}, so the bootstrap gives no measure of its uncertainty (${counted(rows, "row")}).`
        : `${capitalised(options.name ?? "the statistic")} is ${significant(observed)} (${intervalWords(interval.lower, interval.upper, confidence)}, ${bca === null ? "percentile" : "BCa"} bootstrap, ${counted(rows, "row")}${plan.clustered ? ` in ${counted(plan.units.length, "cluster")}` : ""}).`,
  };
}

function replicatesOf(
  next: () => number,
  resamples: number,
  options: BootstrapOptions,
): Float64Array {
  const values = new Float64Array(resamples);
  const stride = Math.ceil(resamples / 100);
  let kept = 0;
  for (let b = 0; b < resamples; b += 1) {
    const value = next();
    if (Number.isFinite(value)) values[kept++] = value;
    if (options.onProgress !== undefined && (b + 1) % stride === 0)
      options.onProgress((b + 1) / resamples);
  }
  if (options.onProgress !== undefined && resamples % stride !== 0) options.onProgress(1);
  return values.slice(0, kept).sort();
}

function momentsOf(values: Float64Array): { mean: number; sd: number } {
  if (values[0] === values[values.length - 1]) return { mean: values[0]!, sd: 0 };
  let mean = 0;
  for (let i = 0; i < values.length; i += 1) mean += (values[i]! - mean) / (i + 1);
  let squares = 0;
  for (let i = 0; i < values.length; i += 1) squares += (values[i]! - mean) ** 2;
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

function warningsOf(
  plan: ResamplePlan,
  failed: number,
  resamples: number,
  sd: number,
  bcaMissing: boolean,
): string[] {
  const units = plan.units.length;
  const what = plan.clustered ? "cluster" : "row";
  const warnings: string[] = [];
  if (units < 10)
    warnings.push(
      `Only ${counted(units, what)} to sample: bootstrap intervals are too narrow below about 10 (common practice, no source)`,
    );
  if (failed > 0)
    warnings.push(`${failed} of ${resamples} resamples gave no finite value and are omitted`);
  if (sd === 0)
    warnings.push(
      `Every resample gives the same value: the interval has zero width and does not measure uncertainty. Expected ${what}s that differ`,
    );
  if (bcaMissing && sd > 0)
    warnings.push(
      "BCa is not defined for these replicates; the percentile interval is given instead",
    );
  if (plan.strata.some((stratum) => stratum.length === 1))
    warnings.push(`A stratum has only one ${what}: its scatter cannot be estimated`);
  return warnings;
}
