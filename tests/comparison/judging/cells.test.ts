import { describe, expect, it } from "vitest";
import { foundCells, statedCells } from "../../../kernel-lib/src/comparison/judging/cells";
import { boundsInGeneral } from "../../../kernel-lib/src/comparison/judging/in-general";
import type { GroupTest } from "../../../kernel-lib/src/comparison/judging/tests-of-group";
import { createRandom, RandomEffectsModel } from "../../../kernel-lib/src/statistics";
import { bySeries, group, judged, ONE_CELL, QUESTION, randomSeries } from "./sample-groups";
import { expectSaid } from "../../says";

/** Series of one layout each, in turn; `means` of the layouts. */
function layouts(
  seed: string,
  means: readonly number[],
  seriesEach: readonly number[],
  options: object = {},
): { tests: GroupTest[]; layout: ReturnType<typeof bySeries>; named: (k: number) => string } {
  const random = createRandom(seed);
  const place = seriesEach.flatMap((count, cell) => Array<number>(count).fill(cell));
  const tests = group(
    ...place.flatMap((cell) =>
      randomSeries(random, 1, { mean: means[cell]!, cov: 0.05, icc: 0.3, ...options }),
    ),
  );
  const named = (k: number): string => ["single", "pair", "edge", "corner"][place[k]!]!;
  return { tests, layout: bySeries("layout", tests, named), named };
}

describe("cells found from the data", () => {
  it("are by layout where the mean differs by layout, and by nothing that is constant or noise", () => {
    const { tests, layout } = layouts("layouts that differ", [1.3, 1.6, 1.9], [4, 4, 4]);
    const constant = bySeries("cracked", tests, () => "no");
    const alternating = bySeries("adhesive", tests, (k) => (k % 2 === 0 ? "A" : "B"));
    expect(foundCells(tests, [constant, alternating, layout])).toMatchObject({
      columns: ["layout"],
      found: true,
    });
    expect(foundCells(tests, [constant, alternating])).toMatchObject({ columns: [] });
    expect(judged(tests, { candidates: [constant, alternating, layout] }).inGeneral).toMatchObject({
      cellColumns: ["layout"],
    });
  });
  it("need no more than lower bounds leave: those play no part in the choice", () => {
    const { tests, layout } = layouts("layouts that differ", [1.3, 1.6, 1.9], [4, 4, 4]);
    const more = [
      ...tests,
      ...tests.slice(0, 5).map((one) => ({ ...one, ratio: 0.1, lowerBound: true })),
    ];
    expect(foundCells(more, [layout]).columns).toEqual(foundCells(tests, [layout]).columns);
  });
  it("are by a column of noise in at most 5 % of samples, several columns looked at together", () => {
    const random = createRandom("noise columns");
    let chosen = 0;
    const samples = 600;
    for (let s = 0; s < samples; s += 1) {
      const tests = group(...randomSeries(random, 12, { icc: random.choice([0, 0.5, 0.9]) }));
      const columns = Array.from({ length: 4 }, (_, j) => {
        const values = Array.from({ length: 12 }, () =>
          random.choice(["a", "b", "c"].slice(0, 2 + (j % 2))),
        );
        return bySeries(`noise ${j}`, tests, (k) => values[k]!);
      });
      if (foundCells(tests, columns).columns.length > 0) chosen += 1;
    }
    // Binomial: 5 % of 600 are 30, SD 5.3; four SD above. Bonferroni and the rule on covered series
    // lie below 5 %.
    expect(chosen).toBeLessThan(30 + 4 * 5.3);
    expect(chosen).toBeGreaterThan(4);
  });
  it("are not taken where most series would lie in cells of fewer than 3", () => {
    const { tests } = layouts("small cells", [1, 1.5, 2, 2.5], [2, 2, 2, 2]);
    const layout = bySeries("layout", tests, (k) => `layout ${Math.floor(k / 2)}`);
    expect(foundCells(tests, [layout]).columns).toEqual([]);
  });
});

describe("cells stated by the user", () => {
  it("are those, whether the mean differs or not", () => {
    const { tests, layout } = layouts("layouts alike", [1.4, 1.4], [4, 4]);
    expect(foundCells(tests, [layout]).columns).toEqual([]);
    const { inGeneral } = judged(tests, { stated: [layout] });
    expect(inGeneral.cellColumns).toEqual(["layout"]);
    expect(inGeneral.cells.map(({ cell, series }) => [cell, series])).toEqual([
      ["pair", 4],
      ["single", 4],
    ]);
    expect(inGeneral.pooled).not.toBeNull();
  });
  it("two columns make cells of their combinations", () => {
    const { tests, layout } = layouts("layouts alike", [1.4, 1.4], [4, 4]);
    const adhesive = bySeries("adhesive", tests, (k) => `adhesive ${k % 2}`);
    expect([...new Set(statedCells(tests, [layout, adhesive]).cellOf)].sort()).toEqual([
      "pair, adhesive 0",
      "pair, adhesive 1",
      "single, adhesive 0",
      "single, adhesive 1",
    ]);
  });
});

describe("the worst cell decides", () => {
  it("names itself in the reason: a bad cell of 3 series among good ones", () => {
    const { tests, layout } = layouts("bad cell", [2, 0.8, 2.1], [5, 3, 5]);
    for (const choice of [{ stated: [layout] }, { candidates: [layout] }]) {
      const { inGeneral } = judged(tests, choice);
      expect(inGeneral).toMatchObject({ verdict: "falls short", cell: "pair" });
      expectSaid(inGeneral.reason, "pair", "upper bound", "0.77");
      expectSaid(inGeneral.reason, "3 series", /lowest of 3 cells/, "layout");
      expect(inGeneral.ofCell).toMatchObject({ cell: "pair", series: 3 });
    }
  });
  it("of only 2 series is not judged, but blocks meets", () => {
    const good = layouts("good cells", [2, 2.1], [5, 5]);
    expect(judged(good.tests, { stated: [good.layout] }).inGeneral.verdict).toBe("meets");
    const { tests, layout } = layouts("bad cell of 2", [2, 0.8, 2.1], [5, 2, 5]);
    const { inGeneral } = judged(tests, { stated: [layout] });
    expect(inGeneral).toMatchObject({ verdict: "undecided", cell: "pair" });
    expectSaid(inGeneral.reason, "pair", "2 series", "at least 3");
    expect(inGeneral.cells.find(({ cell }) => cell === "pair")).toMatchObject({ judged: false });
    // An estimate above the target is not enough: the lower bound of such a cell counts, which a
    // high mean satisfies.
    const seen = [1.08, 1.12, 1.16, 1.2, 2.4].map((mean) => {
      const small = layouts("small cell", [2, mean, 2.1], [5, 2, 5]);
      const found = judged(small.tests, { stated: [small.layout] }).inGeneral;
      const { fractile, lower } = found.cells.find((one) => one.cell === "pair")!;
      expect(found.verdict).toBe(lower >= 1 ? "meets" : "undecided");
      return fractile >= 1 ? found.verdict : "estimate below 1";
    });
    expect(new Set(seen)).toEqual(
      new Set(["undecided", "meets", ...seen.filter((one) => one.startsWith("estimate"))]),
    );
  });
  it("meets only where every judged cell's lower bound does", () => {
    const random = createRandom("verdicts of cells");
    const seen = new Set<string>();
    for (let s = 0; s < 24; s += 1) {
      const means = [0, 1, 2].map(() => 1 + random.uniform());
      const { tests, layout } = layouts(`cells ${s}`, means, [4, 4, 4], { cov: 0.06 });
      const {
        inGeneral: { verdict, cells },
      } = judged(tests, { stated: [layout] });
      const expected = cells.some(({ upper }) => upper < 1)
        ? "falls short"
        : cells.every(({ lower }) => lower >= 1)
          ? "meets"
          : "undecided";
      expect(verdict).toBe(expected);
      seen.add(verdict);
    }
    expect([...seen].sort()).toEqual(["falls short", "meets", "undecided"]);
  });
});

describe("the simultaneous upper bound", () => {
  it("of m judged cells has confidence 1 - 0.8 x 0.1/m (Bonferroni), the lower bound the stated 90 %", () => {
    const { tests, layout } = layouts("Bonferroni", [1.3, 1.4, 1.5], [4, 4, 2]);
    const cells = statedCells(tests, [layout]);
    const general = boundsInGeneral(tests, cells, { ...QUESTION, distribution: "lognormal" });
    if (typeof general === "string") throw new Error(general);
    const names = [...new Set(cells.cellOf)].sort();
    const unit = (k: number): number[] => names.map((_, j) => (j === k ? 1 : 0));
    const model = new RandomEffectsModel({
      y: tests.map(({ ratio }) => Math.log(ratio)),
      censored: tests.map(() => false),
      series: tests.map(({ series }) => series),
      pointOf: tests.map((_, i) => names.indexOf(cells.cellOf[i]!)),
      points: names.map((_, k) => unit(k)),
      cells: names.length,
    });
    const judgedCells = general.cells.filter((one) => one.judged).length;
    expect(judgedCells).toBe(2);
    general.cells.forEach(({ lower, upper }, k) => {
      expect(Math.log(lower)).toBeCloseTo(
        model.fractile(unit(k), { fractile: 0.05, confidence: 0.9 }).lower,
        9,
      );
      expect(Math.log(upper)).toBeCloseTo(
        model.fractile(unit(k), { fractile: 0.05, confidence: 0.96 }).upper,
        9,
      );
    });
  });
  it("is that of 92 % where the group is one cell", () => {
    const { tests } = layouts("Bonferroni", [1.3, 1.4, 1.5], [4, 4, 2]);
    const general = boundsInGeneral(tests, ONE_CELL(tests), QUESTION);
    const { asTested, inGeneral } = judged(tests);
    if (typeof general === "string") throw new Error(general);
    expect(inGeneral.upper).toBe(general.cells[0]!.upper);
    expect(inGeneral.pooled).toBeNull();
    expect(inGeneral.lower!).toBeLessThan(asTested.lower!);
  });
});
