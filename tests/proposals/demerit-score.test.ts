import { describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../kernel-lib/src/comparison";
import {
  beforeAfterOf,
  DEMERIT_CLASSES,
  DEMERIT_NOTE,
  demeritScore,
  groupReliability,
  groupStandings,
  loadModel,
  reliabilityOverLoadRatio,
  type GroupStanding,
  type Proposal,
} from "../../kernel-lib/src/proposals";
import { standingTable } from "../../kernel-lib/src/tables";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { code } from "../../kernel-lib/src/provisions";
import { TestTable } from "../../kernel-lib/src/dataset";
import { createRandom } from "../../kernel-lib/src/statistics";
import { expectSaid } from "../says";

const of = (ratios: readonly number[], bound = false): { ratio: number; bound: boolean }[] =>
  ratios.map((ratio) => ({ ratio, bound }));

describe("demeritScore", () => {
  it("takes the penalty of each range, limits belonging to the class above", () => {
    // Ranges and penalties after the 2001 report (from memory, to be checked against the paper).
    const points = (ratio: number): number => (demeritScore(of([ratio])).score ?? NaN) / 100;
    expect(
      [0.1, 0.499999, 0.5, 0.649999, 0.65, 0.849999, 0.85, 1, 1.299999, 1.3, 1.999999, 2, 9].map(
        points,
      ),
    ).toEqual([10, 10, 5, 5, 2, 2, 0, 0, 0, 1, 1, 2, 2]);
  });
  it("adds percentages times penalties (by hand)", () => {
    // Ten tests: 1 at 0.4, 1 at 0.6, 2 at 0.8, 3 at 1.1, 2 at 1.5, 1 at 2.4: 10·10 + 10·5 + 20·2 +
    // 30·0 + 20·1 + 10·2 = 230
    const found = demeritScore(of([0.4, 0.6, 0.8, 0.8, 1.1, 1.1, 1.1, 1.5, 1.5, 2.4]));
    expect(found.score).toBeCloseTo(230, 10);
    expect(found.classes.map(({ count }) => count)).toEqual([1, 1, 2, 3, 2, 1]);
    expect(found.classes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });
  it("lies between 0 and 1000 and does not hang on the order", () => {
    const random = createRandom("demerit");
    for (let k = 0; k < 50; k++) {
      const ratios = Array.from({ length: 1 + random.integer(30) }, () =>
        Math.exp(random.normal()),
      );
      const { score } = demeritScore(of(ratios));
      expect(score).toBeGreaterThanOrEqual(0);
      expect(score).toBeLessThanOrEqual(1000);
      expect(demeritScore(of(random.shuffle(ratios))).score).toBe(score);
    }
  });
  it("leaves lower bounds out and says so; without tests it tells nothing", () => {
    expect(demeritScore([...of([0.6]), ...of([0.4, 3], true)])).toMatchObject({
      n: 1,
      lowerBounds: 2,
      score: 500,
    });
    const { reading } = demeritScore([...of([0.6]), ...of([0.4], true)]);
    expectSaid(reading, "1 lower bound", "left out");
    expect(demeritScore(of([0.4], true))).toMatchObject({
      status: "cannot be estimated",
      score: null,
    });
  });
  it("takes other limits, and refuses wrong ones", () => {
    const other = DEMERIT_CLASSES.map((one) => (one.from === 0.65 ? { ...one, from: 0.67 } : one));
    expect([demeritScore(of([0.66])).score, demeritScore(of([0.66]), other).score]).toEqual([
      200, 500,
    ]);
    expect(() => demeritScore(of([1]), [...DEMERIT_CLASSES].reverse())).toThrow(
      "expected rising limits from 0",
    );
    expect(() => demeritScore(of([1, NaN]))).toThrow("a ratio is NaN");
  });
  it("says what it is and that its source is to be checked", () => {
    expectSaid(DEMERIT_NOTE, /checked against the paper/, /\b(no|not a) measure of safety/);
  });
});

describe("the score in the standing of groups", () => {
  const tests = TestTable.fromRows(
    generateDemonstration(1).tests.filter((row) => row.action === "shear"),
  );
  const present = code("aci318-19");
  const proposal = (factor: string): Proposal => ({
    id: "p",
    title: "t",
    changes: "aci318-19/17.7.2",
    symbol: "psi_x",
    where: "frp == 1",
    factor,
    says: "s",
    rationale: "r",
    derivation: "d",
    evidence: "e",
  });
  const standings = (factor: string): GroupStanding[] =>
    groupStandings(
      beforeAfterOf(tests, present, [proposal(factor)], ["mode", "bar_material"]),
      groupReliability(tests, present),
    );
  it("a factor of 1 changes nothing", () => {
    for (const { before, after } of standings("1")) expect(after).toEqual(before);
  });
  it("is that of the group's own ratios on both sides, and a lower capacity raises mean and index only where it applies", () => {
    const edge = standings("0.8").filter(({ by }) => by["mode"] === "concrete_edge_breakout");
    expect(edge.length).toBeGreaterThan(1);
    const change = beforeAfterOf(tests, present, [proposal("0.8")], ["mode", "bar_material"]);
    for (const { by, label, before, after } of edge) {
      const group = change.groups.find((one) => one.label === label)!;
      expect(before.demerit).toEqual(demeritScore(group.before.evidence));
      expect(after.demerit).toEqual(demeritScore(group.after.evidence));
      if (by["bar_material"] === "steel") expect(after.leastIndex).toBe(before.leastIndex);
      else expect(after.leastIndex).toBeGreaterThan(before.leastIndex ?? NaN);
    }
  });
  it("the table carries the statement of the score", () => {
    const table = standingTable(standings("0.8"), {
      id: "scores",
      title: "Scores",
      notes: ["first"],
    });
    expect(table.notes).toEqual(["first", DEMERIT_NOTE]);
    expect(
      table.column("demerit_after").some((score) => typeof score === "number" && score > 0),
    ).toBe(true);
  });
  it("scatter of the measurement is taken out and that of fabrication put in when asked", () => {
    const [group] = groupRatios(compare(tests, present, {}), ["mode", "bar_material"]).filter(
      ({ by, n }) => by["mode"] === "concrete_edge_breakout" && n > 5,
    );
    const [shares, loads] = [[0.5], loadModel("nowak-2003")];
    const found = groupReliability(tests, present, {
      loads,
      variableShares: shares,
      specimenCov: 0.04,
      fabrication: { bias: 0.98, cov: 0.05 },
    });
    // Mean and scatter of a further test of a further series.
    const single = group!.inGeneral.ofCell!;
    const cov = Math.hypot(Math.sqrt(single.cov ** 2 - 0.04 ** 2), 0.05);
    const [own] = reliabilityOverLoadRatio(
      { resistance: { bias: 0.98 * single.mean, cov }, loads },
      found.reductionOf(group!)!,
      shares,
    );
    expect(found.indexOf(group!)![0]!.index).toBeCloseTo(own!.reliability.index, 9);
  });
});
