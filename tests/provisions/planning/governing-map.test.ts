import { describe, expect, it } from "vitest";
import { governing, governingMap, predict } from "../../../kernel-lib/src/provisions";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { table } from "../specimens";
import { aci, at, strong } from "./strong-bar";

describe("map of governing modes", () => {
  const axes = {
    x: { column: "embedment_mm", values: Array.from({ length: 30 }, (_, k) => 50 + 12 * k) },
    y: {
      column: "concrete_strength_MPa",
      values: Array.from({ length: 20 }, (_, k) => 15 + 2.5 * k),
    },
  };
  const short = { ...strong, bar_strength_MPa: 500 };
  const map = governingMap(aci, table(short), 0, axes);

  it("agrees with the prediction of each point taken alone", () => {
    const random = createRandom(79);
    for (let k = 0; k < 60; k++) {
      const [c, r] = [Math.floor(30 * random.uniform()), Math.floor(20 * random.uniform())];
      const prediction = predict(
        aci,
        table({
          ...short,
          embedment_mm: axes.x.values[c]!,
          concrete_strength_MPa: axes.y.values[r]!,
        }),
      );
      const least = governing(prediction);
      expect(map.governing[r]?.[c]).toBe(prediction.columns[least.column[0]!]?.provision.modes[0]);
      expect(map.capacity[r]?.[c]).toBe(least.capacity[0]);
    }
    expect(new Set(map.governing.flat())).toEqual(
      new Set(["concrete_breakout", "bond", "bar_rupture"]),
    );
  });
  it("crossings are where the two capacities are equal", () => {
    expect(map.crossings.length).toBeGreaterThan(20);
    const ids: Record<string, string> = {
      concrete_breakout: "aci318-19/17.6.2",
      bond: "aci318-19/17.6.5",
      bar_rupture: "aci318-19/17.6.1.2",
    };
    for (const { x, y, modes } of map.crossings) {
      const [a, b] = modes.map((mode) =>
        at(x, ids[mode ?? ""] ?? "", { ...short, concrete_strength_MPa: y }),
      ) as [number, number];
      expect(Math.abs(a / b - 1)).toBeLessThan(1e-9);
    }
    // By hand: breakout and bond cross where k sqrt(f_c) h^1.5 = t h, so h f_c is one number along
    // the line, until f_c reaches 8000 psi.
    const line = map.crossings
      .filter(
        ({ modes, y }) => modes.includes("concrete_breakout") && modes.includes("bond") && y < 55,
      )
      .map(({ x, y }) => x * y);
    expect(line.length).toBeGreaterThan(10);
    for (const product of line) expect(product / line[0]!).toBeCloseTo(1, 9);
  });
  it("the boundary is in pieces that join crossings", () => {
    expect(map.boundaries.length).toBeGreaterThan(15);
    const places = new Set(map.crossings.map(({ x, y }) => `${x} ${y}`));
    expect(
      map.boundaries.filter(({ from, to }) => [from, to].some(([x, y]) => places.has(`${x} ${y}`))),
    ).toHaveLength(map.boundaries.length);
  });
  it("random points between the grid lie on the side that the nearest crossing says", () => {
    const random = createRandom(83);
    for (let k = 0; k < 80; k++) {
      const [c, r, u, v] = [
        Math.floor(29 * random.uniform()),
        Math.floor(19 * random.uniform()),
        random.uniform(),
        random.uniform(),
      ];
      const corners = [
        map.governing[r]![c],
        map.governing[r]![c + 1],
        map.governing[r + 1]![c],
        map.governing[r + 1]![c + 1],
      ];
      if (new Set(corners).size > 1) continue;
      const prediction = predict(
        aci,
        table({
          ...short,
          embedment_mm: axes.x.values[c]! + 12 * u,
          concrete_strength_MPa: axes.y.values[r]! + 2.5 * v,
        }),
      );
      expect(prediction.columns[governing(prediction).column[0]!]?.provision.modes[0]).toBe(
        corners[0],
      );
    }
  });
  it("refuses an axis that does not rise", () => {
    expect(() =>
      governingMap(aci, table(strong), 0, {
        ...axes,
        x: { column: "embedment_mm", values: [100, 90] },
      }),
    ).toThrow("expected at least two that rise");
  });
});
