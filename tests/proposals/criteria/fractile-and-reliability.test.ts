import { describe, expect, it } from "vitest";
import {
  factorCase,
  FactorDerivation,
  fractileCriterion,
  loadModel,
  reliabilityCriterion,
  reliabilityOverLoadRatio,
} from "../../../kernel-lib/src/proposals";
import { createRandom } from "../../../kernel-lib/src/statistics";
import { factorTable } from "../../../kernel-lib/src/tables";
import { comparisonOf, groupOf, present, type RatioRow } from "./criteria-rows";

/** Invented: two layouts with different means, six series each, three tests a series. */
function sample(level: number, seed: string = "criteria"): RatioRow[] {
  const random = createRandom(seed);
  return [0, 1].flatMap((pair) =>
    Array.from({ length: 6 }, (_, s) => s).flatMap((s) => {
      const ofSeries = 0.06 * random.normal();
      return Array.from({ length: 3 }, (): RatioRow => ({
        series_id: `${pair === 1 ? "pair" : "single"} ${s}`,
        study_id: s % 2 === 0 ? "A" : "B",
        bar_material: "gfrp",
        ...(pair === 1 ? { group_nx: 2, spacing_x_mm: 150 } : {}),
        ratio: level * (pair === 1 ? 1 : 1.5) * Math.exp(ofSeries + 0.06 * random.normal()),
      }));
    }),
  );
}

describe("fractileCriterion", () => {
  const comparison = comparisonOf(sample(0.9));
  const group = groupOf(comparison, "gfrp");
  it("is the lowest characteristic ratio of the judged cells, and as large a factor brings the group to 1", () => {
    expect(group.inGeneral.cells).toHaveLength(2);
    const found = fractileCriterion(group);
    expect(found.factor).toBe(
      Math.min(...group.inGeneral.cells.filter(({ judged }) => judged).map(({ lower }) => lower)),
    );
    const changed = groupOf(
      comparisonOf(sample(0.9).map((row) => ({ ...row, ratio: row.ratio / found.factor! }))),
      "gfrp",
    );
    expect(Math.min(...changed.inGeneral.cells.map(({ lower }) => lower))).toBeCloseTo(1, 6);
  });
  it("gives none with fewer than 3 series", () => {
    const few = groupOf(
      comparisonOf(
        sample(0.9).filter(
          ({ series_id }) => /[01]$/.test(series_id!) && series_id!.startsWith("single"),
        ),
      ),
      "gfrp",
    );
    expect(fractileCriterion(few)).toMatchObject({ factor: null, lower: null, upper: null });
  });
});

describe("reliabilityCriterion", () => {
  const group = groupOf(comparisonOf(sample(0.9)), "gfrp");
  const cell = group.inGeneral.cells.reduce((low, one) => (one.mean < low.mean ? one : low));
  const [phi, index] = [0.65, 3.5];
  it("gives the target index at the least favorable load ratio", () => {
    const { estimate, factor, lower } = reliabilityCriterion(group, phi, 0.9, { index });
    const indices = reliabilityOverLoadRatio(
      { resistance: { bias: cell.mean, cov: cell.cov }, loads: loadModel("nowak-2003") },
      phi * estimate!,
    ).map(({ reliability }) => reliability.index);
    expect(Math.min(...indices)).toBeCloseTo(index, 4);
    expect(factor).toBe(lower);
    expect(lower!).toBeLessThan(estimate!);
  });
  it("is the closed form for lognormal resistance and load (first-order second-moment theory, from memory)", () => {
    const nowak = loadModel("nowak-2003");
    const loads = { ...nowak, dead: { ...nowak.dead, kind: "lognormal" as const } };
    // All but no variable load: phi psi R_n = 1.4 D; ln R - ln D is normal with the variance r + q.
    const { estimate } = reliabilityCriterion(group, phi, 0.9, {
      index,
      loads,
      variableShares: [1e-7],
    });
    const [r, q] = [Math.log(1 + cell.cov ** 2), Math.log(1 + loads.dead.cov ** 2)];
    const median = {
      resistance: cell.mean / Math.sqrt(1 + cell.cov ** 2),
      load: loads.dead.meanOverNominal / Math.sqrt(1 + loads.dead.cov ** 2),
    };
    const closed = ((median.resistance * 1.4) / median.load) * Math.exp(-index * Math.sqrt(r + q));
    expect(estimate! * phi).toBeCloseTo(closed, 4);
  });
  it("follows the mean in proportion, and needs a strength reduction", () => {
    const higher = groupOf(comparisonOf(sample(1.8)), "gfrp");
    const [one, two] = [group, higher].map((of) => reliabilityCriterion(of, phi, 0.9));
    for (const key of ["estimate", "lower", "upper"] as const)
      expect(two![key]! / one![key]!).toBeCloseTo(2, 4);
    expect(reliabilityCriterion(group, null, 0.9).factor).toBeNull();
  });
});

describe("FactorDerivation", () => {
  const comparison = comparisonOf(sample(0.9));
  const group = groupOf(comparison, "gfrp");
  const found = new FactorDerivation(comparison).derive(group);
  it("proposes from the fractile where no steel stands beside, rounds down and says what the others give", () => {
    expect(found).toMatchObject({
      status: "derived",
      criterion: "fractile",
      exact: fractileCriterion(group).factor,
    });
    expect(found.rounded!).toBeLessThanOrEqual(found.exact!);
    expect(found.exact! - found.rounded!).toBeLessThan(0.05);
    expect(Object.keys(found.criteria)).toEqual(["fractile", "as steel", "reliability"]);
    expect(found.reading).toContain('criterion "fractile"');
    expect(found.reading).toContain(`reliability ${found.criteria.reliability.factor!.toFixed(3)}`);
  });
  it("a reduction is supported only where the upper bound is below 1", () => {
    for (const level of [0.6, 0.9, 1, 1.1, 1.2]) {
      const of = comparisonOf(sample(level));
      const one = new FactorDerivation(of).derive(groupOf(of, "gfrp"));
      expect(one.supported).toBe(one.criteria[one.criterion].upper! < 1);
    }
    expect(
      new FactorDerivation(comparisonOf(sample(0.6))).derive(
        groupOf(comparisonOf(sample(0.6)), "gfrp"),
      ).supported,
    ).toBe(true);
  });
  it("a proposal carries criterion, support and the rounded factor; its table marks both", () => {
    const cased = factorCase(comparison.tests, present);
    const [bond] = cased.factors.filter(({ label }) => label.startsWith("bond"));
    expect(cased.proposals.find(({ id }) => id === "frp-bond")).toMatchObject({
      factor: String(bond!.rounded),
      criterion: bond!.criterion,
      supported: bond!.supported,
    });
    const row = factorTable([bond!], { id: "f", title: "f" }).rows[0]!;
    expect([row["fractile"], row["rounded"], row["supported"]]).toEqual([
      bond!.criteria.fractile.factor,
      bond!.rounded,
      bond!.supported ? "yes" : "no",
    ]);
    expect(row["without_study"]).toBe(
      bond!.leftOut.some(({ adequate }) => adequate === false)
        ? "not adequate"
        : bond!.leftOut.some(({ adequate }) => adequate === null)
          ? "too few tests"
          : "adequate",
    );
  });
  it("more tests of the same series do not raise the factor as more series do", () => {
    const factorOf = (rows: RatioRow[]): number =>
      fractileCriterion(groupOf(comparisonOf(rows), "gfrp")).factor!;
    const rows = sample(0.9);
    const copies = (rename: boolean): RatioRow[] =>
      Array.from({ length: 4 }, (_, k) =>
        sample(0.9, "criteria").map((row) => ({
          ...row,
          series_id: rename ? `${row.series_id} ${k}` : row.series_id!,
        })),
      ).flat();
    expect(factorOf(copies(false)) - factorOf(rows)).toBeLessThan(
      0.5 * (factorOf(copies(true)) - factorOf(rows)),
    );
  });
});
