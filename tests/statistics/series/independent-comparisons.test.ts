import { describe, expect, it } from "vitest";
import {
  boundByAnalysisOfVariance,
  characteristicBySeries,
} from "../../../kernel-lib/src/statistics";
import { comparisons, rowsOf, sdOf } from "./independent/cases";

describe("other methods for the bound with series effect, recomputed from memory of the papers (comparisons.py)", () => {
  it.each(comparisons())(
    "$name: analysis of variance of MIL-HDBK-17 is the SciPy recomputation",
    (one) => {
      const { values, clusters } = rowsOf(one.series);
      const { fractile, confidence } = one;
      const found = boundByAnalysisOfVariance({ values, series: clusters, fractile, confidence });
      const away = Math.abs((found.status === "ok" ? found.value : NaN) - one.nestedAnova);
      expect(away / sdOf(one.series)).toBeLessThan(1e-7);
    },
  );
  // No equality: the prior differs. Twelve series or fewer may lie further apart.
  it.each(comparisons().filter(({ series }) => series.length >= 20))(
    "$name: generalized pivot (2004) within 0.1 SD",
    ({ series, fractile, confidence, generalizedPivot }) => {
      const { values, clusters } = rowsOf(series);
      const found = characteristicBySeries({
        values,
        censored: values.map(() => false),
        clusters,
        fractile,
        confidence,
      });
      const away = Math.abs(
        (found.status === "ok" ? found.characteristic : NaN) - generalizedPivot,
      );
      expect(away / sdOf(series)).toBeLessThan(0.1);
    },
  );
  it("five batches of the published example (Vangel 1992), B basis: within 0.002 SD of the generalized pivot", () => {
    const [batches] = comparisons();
    const { series, generalizedPivot } = batches!;
    const sd = sdOf(series);
    const { values, clusters } = rowsOf(series);
    const censored = values.map(() => false);
    const found = characteristicBySeries({
      values,
      censored,
      clusters,
      fractile: 0.1,
      confidence: 0.95,
    });
    expect(
      Math.abs((found.status === "ok" ? found.characteristic : NaN) - generalizedPivot) / sd,
    ).toBeLessThan(0.002);
  });
});
