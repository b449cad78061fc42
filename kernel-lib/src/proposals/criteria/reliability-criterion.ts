import type { RatioGroup } from "../../comparison";
import { studentT } from "../../statistics";
import {
  factorForTargetIndex,
  loadModel,
  resistanceStatistics,
  type LoadModel,
} from "../reliability";
import { withoutFactor, type CriterionResult } from "./criterion";

/** On what the reliability criterion rests. */
export interface ReliabilityTarget {
  /** Default 3.5, usual for anchors (common practice, no source). */
  readonly index?: number;
  readonly loads?: LoadModel;
  /** Shares L/(D + L); default 0.3 to 0.7. */
  readonly variableShares?: readonly number[];
}

const TARGET_INDEX = 3.5;

/**
 * The reliability criterion: the factor psi with which designs at the code's own strength reduction
 * phi reach a target index at the least favorable load ratio. Resistance over nominal is lognormal
 * with mean and COV of a further test of a further series in the cell with the lowest mean; psi =
 * phi(target)/phi(code).
 *
 * Bounds by the delta method from the errors of ln(mean) and ln(scatter), Student's t with the
 * degrees of freedom between series. Material and fabrication scatter beyond that in the tests is
 * not added.
 * @param phi strength reduction of the code for the group; null where it states none
 * @example reliabilityCriterion(group, 0.65, 0.9, { index: 3.5 }).factor
 */
export function reliabilityCriterion(
  { inGeneral, label, n }: Pick<RatioGroup, "inGeneral" | "label" | "n">,
  phi: number | null,
  confidence: number,
  { index = TARGET_INDEX, loads = loadModel("nowak-2003"), variableShares }: ReliabilityTarget = {},
): CriterionResult {
  const cells = inGeneral.cells.filter(({ judged }) => judged);
  const { scatterError } = inGeneral;
  if (cells.length === 0 || scatterError === null)
    return withoutFactor("reliability", `${label}: ${inGeneral.reason}`);
  if (phi === null) return withoutFactor("reliability", "the code states no strength reduction");
  const { mean, cov, logMeanVariance } = cells.reduce((low, one) =>
    one.mean < low.mean ? one : low,
  );
  if (!(mean > 0 && cov > 0)) return withoutFactor("reliability", "no scatter can be estimated");
  const at = (v: number): number => {
    const resistance = resistanceStatistics({ professional: { bias: mean, cov: v } });
    const found = factorForTargetIndex({
      resistance,
      loads,
      targetIndex: index,
      n,
      ...(variableShares ? { variableShares } : {}),
    });
    return found.factor === null ? NaN : found.factor / phi;
  };
  const [estimate, more] = [at(cov), at(1.02 * cov)];
  if (!Number.isFinite(estimate) || !Number.isFinite(more))
    return withoutFactor("reliability", "no design point was found");
  // ln(psi) is ln(mean) plus a function of the scatter.
  const slope = Math.log(more / estimate) / Math.log(1.02);
  const half =
    studentT(Math.max(1, scatterError.degrees)).quantile(confidence) *
    Math.sqrt(logMeanVariance + slope * slope * scatterError.variance);
  const lower = estimate * Math.exp(-half);
  return {
    criterion: "reliability",
    factor: lower,
    estimate,
    lower,
    upper: estimate * Math.exp(half),
    basis: `index ${index} at phi = ${phi.toFixed(2)}, ${loads.title}, COV ${cov.toFixed(2)} for a further series`,
  };
}
