import { describe, expect, it } from "vitest";
import { groupRatios } from "../../kernel-lib/src/comparison";
import { residualsOf } from "../../kernel-lib/src/figures";
import { shapiroWilk } from "../../kernel-lib/src/statistics";
import { comparisonOf, type RatioRow } from "../proposals/criteria/criteria-rows";

const within = [0.93, 1, 1.09];
/** Two layouts whose means differ by one half, series by a few percent. */
const rows = [1, 2].flatMap((group_nx) =>
  [0.96, 1, 1.03, 1.05].flatMap((ofSeries, s) =>
    within.map((one): RatioRow => ({
      series_id: `${group_nx} ${s}`,
      ratio: (group_nx === 2 ? 1.5 : 1) * ofSeries * one,
      ...(group_nx === 2 ? { group_nx, spacing_x_mm: 150 } : {}),
    })),
  ),
);
const comparison = comparisonOf(rows);
const [group] = groupRatios(comparison, ["mode"], { cells: ["layout"] });

describe("residualsOf", () => {
  it("are the residuals whose fit the group is judged by, free of the means of the cells", () => {
    for (const distribution of ["normal", "lognormal"] as const) {
      const { sample, theoretical } = residualsOf(comparison, group!, distribution);
      expect(sample).toHaveLength(24);
      expect(shapiroWilk(sample)).toMatchObject({
        p: expect.closeTo(group!.inGeneral.residualFit[distribution]!, 9) as number,
      });
      expect(
        theoretical.every(
          (value, i) =>
            value === -theoretical[23 - i]! || Math.abs(value + theoretical[23 - i]!) < 1e-9,
        ),
      ).toBe(true);
      expect([...sample].sort((a, b) => a - b)).toEqual(sample);
    }
    const { sample, yTitle } = residualsOf(comparison, group!, "normal");
    // 1.03 x 1.09 over the geometric mean of the series 0.96, 1, 1.03, 1.05 and of the tests 0.93,
    // 1, 1.09 in them
    const centre = (0.96 * 1 * 1.03 * 1.05) ** (1 / 4) * (0.93 * 1.09) ** (1 / 3);
    expect(sample.at(-1)).toBeCloseTo((1.05 * 1.09) / centre, 6);
    expect(yTitle).toContain("cell mean");
  });
});
