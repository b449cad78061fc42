import { significant } from "../reading";
import type { Account, CannotTell } from "../result";
import { cannotTell, cleanSample } from "../result";
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
export function meanMinusThreeSd(values: ArrayLike<number>): MeanMinusThreeSd | CannotTell {
  const method = "Mean minus three standard deviations";
  const { values: x, setAside } = cleanSample(values, "meanMinusThreeSd");
  if (x.length < 2) return cannotTell(method, "too few values", "at least 2", x.length, setAside);
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
    setAside,
    assumptions: ["sample SD taken for that of the population"],
    reading: `Mean minus three SD is ${significant(value)} (n = ${x.length}, mean ${significant(centre)}, SD ${significant(sd)}); it carries no stated confidence${value < 0 ? ", and being negative it bounds nothing" : ""}.`,
  };
}
