import { describe, expect, it } from "vitest";
import { characteristicBySeries, RandomEffectsModel } from "../../../kernel-lib/src/statistics";
import { boundFile, rowsOf, sdOf, type Cell } from "./independent/cases";

const { cases, leaveOneOut } = boundFile();
const found = (cell: Cell): readonly [lower: number, median: number, upper: number] => {
  const { values, clusters } = rowsOf(cell);
  const bounds = characteristicBySeries({ values, censored: values.map(() => false), clusters });
  return bounds.status === "ok"
    ? [bounds.characteristic, bounds.estimate, bounds.upper]
    : [NaN, NaN, NaN];
};

/**
 * Reference: dense quadrature in SciPy, written without the library at hand
 * (independent/bounds.py).
 */
describe("bounds with the series effect against an independent quadrature, to 1e-4 of an SD", () => {
  for (const { name, cells, bounds } of cases) {
    it(name, () => {
      const rows = cells.map(rowsOf);
      const y = rows.flatMap(({ values }) => values);
      const unit = (k: number): number[] => cells.map((_, j) => (j === k ? 1 : 0));
      const model = new RandomEffectsModel({
        y,
        censored: new Uint8Array(y.length),
        series: rows.flatMap(({ clusters }, k) => clusters.map((label) => `${label} of cell ${k}`)),
        pointOf: rows.flatMap(({ values }, k) => values.map(() => k)),
        points: cells.map((_, k) => unit(k)),
        cells: cells.length,
      });
      cells.forEach((cell, k) => {
        const { lower, estimate, upper } = model.fractile(unit(k), {
          fractile: 0.05,
          confidence: 0.9,
        });
        [lower, estimate, upper].forEach((value, i) =>
          expect(Math.abs(value - bounds[k]![i]!) / sdOf(cell)).toBeLessThan(1e-4),
        );
        if (cells.length === 1)
          found(cell).forEach((value, i) =>
            expect(Math.abs(value - bounds[k]![i]!) / sdOf(cell)).toBeLessThan(1e-4),
          );
      });
    });
  }
  it("without one of 88 series", () => {
    const { series, without } = leaveOneOut;
    const sd = sdOf(series);
    for (const {
      left,
      bounds: [bound],
    } of without) {
      const kept = series.filter((_, i) => i !== left);
      expect(Math.abs(found(kept)[0] - bound) / sd, `series ${left} left out`).toBeLessThan(1e-4);
    }
  });
});
