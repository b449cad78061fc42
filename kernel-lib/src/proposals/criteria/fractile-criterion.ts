import type { RatioGroup } from "../../comparison";
import { withoutFactor, type CriterionResult } from "./criterion";

/**
 * The fractile criterion: the factor for which the lower bound of the 5 % fractile in general is 1,
 * in every cell with enough series. test/(psi predicted) has the fractile r/psi, so that psi is the
 * lowest characteristic ratio of the cells.
 * @example fractileCriterion(group).factor
 */
export function fractileCriterion({
  inGeneral,
  label,
}: Pick<RatioGroup, "inGeneral" | "label">): CriterionResult {
  const cells = inGeneral.cells.filter(({ judged }) => judged);
  if (cells.length === 0) return withoutFactor("fractile", `${label}: ${inGeneral.reason}`);
  const { fractile, lower, upper, cell, n, series } = cells.reduce((low, one) =>
    one.lower < low.lower ? one : low,
  );
  const of = inGeneral.cells.length > 1 ? `, lowest in ${cell}` : "";
  return {
    criterion: "fractile",
    factor: lower,
    estimate: fractile,
    lower,
    upper,
    basis: `${n} failures in ${series} series${of}, series effect included`,
  };
}
