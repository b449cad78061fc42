import type { Comparison, Evidence } from "../../comparison";
import { NoMaximumError } from "../../statistics/censoring/censored-likelihood";
import { withoutFactor } from "./criterion";
import { steelPairs } from "./steel-pairs";
import type { SteelQuestion, AsSteel } from "./steel-question";
import { ratioOfFractiles } from "./fractile-ratio";

/** Series of steel from which this criterion is used. */
export const FEWEST_STEEL_SERIES = 3;

/**
 * The factor that gives FRP bars what the present provision gives steel bars: the ratio of the 5 %
 * fractiles of test/predicted, FRP over steel. What the provision errs for both alike cancels out.
 *
 * Model: ln(ratio) = mean of the cell + delta [FRP] + slopes of ln(diameter), one for both and one
 * more for FRP, + study + series + test, over the cells (layout, adhesive, cracked, set-up,
 * installation, concrete) in which both failed in the mode; lower bounds count as such. A study
 * (laboratory) has an effect of its own where the tests can carry it, so that FRP tested in one
 * laboratory is not charged for steel tested in another. delta is taken at the geometric mean
 * diameter of the FRP bars. The ratio of the fractiles is exp(delta) where steel and FRP scatter
 * alike, else exp(delta - z (s_FRP - s_steel)) with the scatter of separate fits. Its bounds take
 * Student's t with the degrees of freedom between series.
 *
 * Limits: delta is one number for all cells; a few series of steel make the bound wide.
 * @returns no factor where fewer than 3 series of either failed in shared cells, or where steel is
 *   judged by another provision
 * @example asSteel(comparison, group.evidence, steelGroup.evidence, { fractile: 0.05, confidence: 0.9 }).factor
 */
export function asSteel(
  comparison: Comparison,
  frp: readonly Evidence[],
  steel: readonly Evidence[],
  question: SteelQuestion,
): AsSteel {
  const found = steelPairs(comparison, frp, steel);
  const base = {
    pairs: found.pairs,
    columns: found.columns,
    unpaired: found.unpaired,
    diameter_mm: null,
    scatter: null,
  };
  const refuse = (basis: string): AsSteel => ({
    ...withoutFactor("as steel", basis),
    criterion: "as steel",
    ...base,
  });
  const provisionsOf = (evidence: readonly Evidence[]): Set<string> =>
    new Set(
      evidence.map(({ column }) => comparison.prediction.columns[column]?.provision.id ?? ""),
    );
  if (steel.length > 0 && ![...provisionsOf(steel)].some((id) => provisionsOf(frp).has(id)))
    return {
      ...refuse(
        `steel bars are judged by another provision (${[...provisionsOf(steel)].join(", ")})`,
      ),
      pairs: [],
      unpaired: 0,
    };
  const series = [false, true].map(
    (isFrp) =>
      new Set(
        found.tests.filter((one) => one.frp === isFrp && !one.lowerBound).map((one) => one.series),
      ).size,
  );
  if (Math.min(...series) < FEWEST_STEEL_SERIES)
    return refuse(
      `${series[0]} series of steel and ${series[1]} of FRP failed in cells where both were tested; at least ${FEWEST_STEEL_SERIES} of each are needed`,
    );
  try {
    return { ...base, ...ratioOfFractiles(found, question), criterion: "as steel" };
  } catch (error) {
    if (error instanceof NoMaximumError) return refuse(error.message);
    throw error;
  }
}
