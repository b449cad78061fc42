import { comparisonIntervals, fractiles, fractilesOf } from "../../figures";
import type { DerivedFactor } from "../../proposals";
import type { FigureView } from "../results/result";
import type { DerivedFactors } from "./derived-factors";
import { criteriaWithNumbers } from "./factor";
import type { GroupsOfCode } from "./judged-groups";

/** The figures of factors: the three criteria, and the series effect of the fractile criterion. */
export function factorFigures(
  { byWords, basis, question }: GroupsOfCode,
  { factors, groups }: DerivedFactors,
): Readonly<Record<string, FigureView>> {
  const confidence = `${100 * (question.confidence ?? 0.9)} %`;
  return {
    criteria: {
      title: `Factors for FRP bars by three criteria, by ${byWords}`,
      subtitle: basis,
      caption: `Estimate with its one-sided bounds, each at ${confidence} confidence; the factor is the lower bound. n: failures, then lower bounds (LB).`,
      make: (text) =>
        comparisonIntervals({
          ...text,
          measure: "Factor on the capacity (–)",
          comparisons: factors.flatMap((one) =>
            criteriaWithNumbers(one).map(({ criterion, estimate, lower, upper }) => ({
              label: `${one.label}, ${criterion}`,
              n: factorCount(one),
              estimate: estimate ?? NaN,
              lower: lower ?? NaN,
              upper: upper ?? NaN,
              ...(criterion === one.criterion && one.rounded !== null
                ? { finding: `factor ${one.rounded.toFixed(2)}` }
                : {}),
            })),
          ),
        }),
    },
    "series effect": {
      title: 'Factor by the criterion "fractile", series effect included and ignored',
      subtitle: basis,
      caption: `In general: for a further series, series effect included. As tested: series effect ignored. One-sided bounds at ${confidence} confidence; the factor is the lower bound.`,
      make: (text) =>
        fractiles({
          ...text,
          measure: "5 % fractile of test-to-predicted ratio, factor (–)",
          groups: fractilesOf(groups),
        }),
    },
  };
}

/** Such as "n = 120, 28 LB". */
function factorCount({ n, lowerBounds }: DerivedFactor): string {
  return lowerBounds === 0 ? `n = ${n}` : `n = ${n}, ${lowerBounds} LB`;
}
