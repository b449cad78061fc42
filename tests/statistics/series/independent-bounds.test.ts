import { describe, expect, it } from "vitest";
import { characteristicBySeries } from "../../../kernel-lib/src/statistics";
import { boundFile, rowsOf, sdOf, type Cell } from "./independent/cases";

const { cases, leaveOneOut } = boundFile();
const lower = (cell: Cell): number => {
  const { values, clusters } = rowsOf(cell);
  const found = characteristicBySeries({ values, censored: values.map(() => false), clusters });
  return found.status === "ok" ? found.characteristic : NaN;
};

/** Reference: dense quadrature in SciPy, written without the library at hand (independent/bounds.py). */
describe("characteristicBySeries against an independent quadrature, to 1e-4 of an SD", () => {
  for (const { name, cells, bounds } of cases) {
    const [cell, more] = cells;
    if (cell === undefined || more !== undefined) continue;
    it(name, () => {
      expect(Math.abs(lower(cell) - (bounds[0]?.[0] ?? NaN)) / sdOf(cell)).toBeLessThan(1e-4);
    });
  }
  it("without one of 88 series", () => {
    const { series, without } = leaveOneOut;
    const sd = sdOf(series);
    for (const { left, bounds: [bound] } of without) {
      const kept = series.filter((_, i) => i !== left);
      expect(Math.abs(lower(kept) - bound) / sd, `series ${left} left out`).toBeLessThan(1e-4);
    }
  });
});
