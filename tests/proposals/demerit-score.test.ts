import { describe, expect, it } from "vitest";
import { beforeAfterOf, beforeAfterScores, DEMERIT_CLASSES, DEMERIT_NOTE, demeritScore, loadModel, reliabilityOverLoadRatio, type Proposal } from "../../kernel-lib/src/proposals";
import { beforeAfterScoreTable } from "../../kernel-lib/src/tables";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { code } from "../../kernel-lib/src/provisions";
import { TestTable } from "../../kernel-lib/src/dataset";
import { createRandom } from "../../kernel-lib/src/statistics";

const of = (ratios: readonly number[], bound = false): { ratio: number; bound: boolean }[] => ratios.map((ratio) => ({ ratio, bound }));

describe("demeritScore", () => {
  it("takes the penalty of each range, limits belonging to the class above", () => {
    // Ranges and penalties after the 2001 report (from memory, to be checked against the paper).
    const points = (ratio: number): number => (demeritScore(of([ratio])).score ?? NaN) / 100;
    expect([0.1, 0.499999, 0.5, 0.649999, 0.65, 0.849999, 0.85, 1, 1.299999, 1.3, 1.999999, 2, 9].map(points)).toEqual([10, 10, 5, 5, 2, 2, 0, 0, 0, 1, 1, 2, 2]);
  });
  it("adds percentages times penalties (by hand)", () => {
    // Ten tests: 1 at 0.4, 1 at 0.6, 2 at 0.8, 3 at 1.1, 2 at 1.5, 1 at 2.4: 10·10 + 10·5 + 20·2 + 30·0 + 20·1 + 10·2 = 230
    const found = demeritScore(of([0.4, 0.6, 0.8, 0.8, 1.1, 1.1, 1.1, 1.5, 1.5, 2.4]));
    expect(found.score).toBeCloseTo(230, 10);
    expect(found.classes.map(({ count }) => count)).toEqual([1, 1, 2, 3, 2, 1]);
    expect(found.classes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });
  it("lies between 0 and 1000 and does not hang on the order", () => {
    const random = createRandom("demerit");
    for (let k = 0; k < 50; k++) {
      const ratios = Array.from({ length: 1 + random.integer(30) }, () => Math.exp(random.normal()));
      const { score } = demeritScore(of(ratios));
      expect(score).toBeGreaterThanOrEqual(0);
      expect(score).toBeLessThanOrEqual(1000);
      expect(demeritScore(of(random.shuffle(ratios))).score).toBe(score);
    }
  });
  it("leaves lower bounds out and says so; without tests it tells nothing", () => {
    expect(demeritScore([...of([0.6]), ...of([0.4, 3], true)])).toMatchObject({ n: 1, bounds: 2, score: 500 });
    expect(demeritScore([...of([0.6]), ...of([0.4], true)]).reading).toContain("1 lower bound is left out");
    expect(demeritScore(of([0.4], true))).toMatchObject({ status: "cannot tell", score: null });
  });
  it("takes other limits, and refuses wrong ones", () => {
    const other = DEMERIT_CLASSES.map((one) => (one.from === 0.65 ? { ...one, from: 0.67 } : one));
    expect([demeritScore(of([0.66])).score, demeritScore(of([0.66]), other).score]).toEqual([200, 500]);
    expect(() => demeritScore(of([1]), [...DEMERIT_CLASSES].reverse())).toThrow("expected rising limits from 0");
    expect(() => demeritScore(of([1, NaN]))).toThrow("a ratio is NaN");
  });
  it("says what it is and that its source is to be checked", () => {
    expect(DEMERIT_NOTE).toContain("to be checked against the paper");
    expect(DEMERIT_NOTE).toContain("no measure of safety");
  });
});

describe("scores before and after", () => {
  const tests = TestTable.fromRows(generateDemonstration(1).tests.filter((row) => row.action === "shear"));
  const proposal = (factor: string): Proposal => ({ id: "p", title: "t", changes: "aci318-19/17.7.2", symbol: "psi_x", where: "frp == 1", factor, says: "s", rationale: "r", derivation: "d", evidence: "e" });
  const scoresWith = (factor: string): ReturnType<typeof beforeAfterScores> => beforeAfterScores(beforeAfterOf(tests, code("aci318-19"), [proposal(factor)], ["mode", "bar_material"]), { loads: loadModel("nowak-2003"), reductionFactor: ({ by }) => (by["mode"] === "concrete_edge_breakout" ? 0.7 : null) });
  it("a factor of 1 changes nothing", () => {
    for (const { before, after } of scoresWith("1")) expect({ ...after, group: null }).toEqual({ ...before, group: null });
  });
  it("a lower capacity raises mean and index, only where it applies, and the index is that of the group's own statistics", () => {
    const scores = scoresWith("0.8");
    const edge = scores.filter(({ by }) => by["mode"] === "concrete_edge_breakout");
    expect(edge.length).toBeGreaterThan(1);
    for (const { by, before, after } of edge) {
      if (by["bar_material"] === "steel") expect(after.leastIndex).toBe(before.leastIndex);
      else expect(after.leastIndex).toBeGreaterThan(before.leastIndex ?? NaN);
      const own = reliabilityOverLoadRatio({ resistance: { bias: before.mean ?? NaN, cov: before.group.cov ?? NaN }, loads: loadModel("nowak-2003") }, 0.7);
      expect(before.leastIndex).toBe(Math.min(...own.map(({ reliability }) => reliability.index)));
    }
    for (const { by, before } of scores) if (by["mode"] !== "concrete_edge_breakout") expect(before.reliability).toEqual([]);
  });
  it("the table carries the statement of the score", () => {
    const table = beforeAfterScoreTable(scoresWith("0.8"), { id: "scores", title: "Scores", notes: ["first"] });
    expect(table.notes).toEqual(["first", DEMERIT_NOTE]);
    expect(table.rows.length).toBeGreaterThan(3);
  });
});
