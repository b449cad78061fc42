import { significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable, cleanSample } from "../result";
import { mean, standardDeviation } from "./moments";

/** The guaranteed strength mean − 3 SD of FRP product practice. */
export interface MeanMinusThreeSd extends Account {
  status: "ok";
  value: number;
  mean: number;
  sd: number;
}

/**
 * Mean minus three sample standard deviations, the guaranteed strength of FRP bar practice (ACI
 * 440.1R).
 *
 * For a normal population whose mean and SD are the sample's, 0.13 % lie below it; it carries no
 * statement of confidence and takes no account of n.
 */
export function meanMinusThreeSd(values: ArrayLike<number>): MeanMinusThreeSd | NotEstimable {
  const method = "Mean minus three standard deviations";
  const { values: x, excluded } = cleanSample(values, "meanMinusThreeSd");
  if (x.length < 2) return notEstimable(method, "too few values", "at least 2", x.length, excluded);
  const centre = mean(x);
  const sd = standardDeviation(x);
  const value = centre - 3 * sd;
  return {
    status: "ok",
    value,
    mean: centre,
    sd,
    n: x.length,
    method,
    excluded,
    assumptions: ["sample SD used as the SD of the population"],
    reading: `Mean minus three SD is ${significant(value)} (n = ${x.length}, mean ${significant(centre)}, SD ${significant(sd)}); it has no stated confidence${value < 0 ? ", and a negative value is not a bound" : ""}.`,
  };
}
