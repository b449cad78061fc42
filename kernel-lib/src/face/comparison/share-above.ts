import type { RatioGroup } from "../../comparison";
import { survivalCurveOf, type SurvivalCurve } from "../../figures";
import { kaplanMeier } from "../../statistics";

const LEAST_TESTS = 3;

/** Share of tests above each ratio, lower bounds as such: one curve for each group of 3 tests. */
export function shareAbove(groups: readonly RatioGroup[]): SurvivalCurve[] {
  return groups
    .filter(({ evidence }) => evidence.length >= LEAST_TESTS)
    .map(({ label, evidence }) => {
      const values = evidence.map(({ ratio }) => ratio);
      return survivalCurveOf(
        label,
        kaplanMeier({ values, censored: evidence.map(({ bound }) => bound) }),
      );
    });
}
