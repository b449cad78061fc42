import { describe, expect, it } from "vitest";
import { compare } from "../../../kernel-lib/src/comparison";
import { betweenSeries, evidenceCells, planTests, ratioModelOf, specimenFor, testsToSettle, type RatioModel } from "../../../kernel-lib/src/proposals";
import { code, predict } from "../../../kernel-lib/src/provisions";
import { createRandom, normal } from "../../../kernel-lib/src/statistics";
import { testPlanTable } from "../../../kernel-lib/src/tables";
import { PLAIN, table } from "../../provisions/specimens";
import { TestTable, type TestRowInput } from "../../../kernel-lib/src/dataset";

const plain: RatioModel = { distribution: "normal", location: 1.4, scale: 0.12, betweenShare: 0, limits: [], n: 20, nCensored: 0 };

describe("testsToSettle", () => {
  it("has the probability of the noncentral t where tests are independent and free", () => {
    const { curve, truth, fractile } = testsToSettle(plain, [], { simulations: 4000, most: 15, perSeries: 1, seed: 1 });
    expect(truth).toBe("meets");
    expect(fractile).toBeCloseTo(1.4 - 0.12 * 1.6448536269514722, 12);
    // R: K <- qt(.9, n - 1, qnorm(.95) * sqrt(n)) / sqrt(n); pt(K * sqrt(n), n - 1, sqrt(n) * .4 / .12, lower.tail = FALSE); three standard errors of 4000 draws
    for (const [further, probability] of [[3, 0.327284], [9, 0.8508196], [15, 0.9773712]] as const) expect(Math.abs((curve.find((one) => one.further === further)?.probability ?? NaN) - probability)).toBeLessThan(3 * Math.sqrt((probability * (1 - probability)) / 4000) + 1e-9);
    expect(testsToSettle(plain, [], { simulations: 4000, most: 15, perSeries: 1, seed: 1 }).curve).toEqual(curve);
  });
  it("is less sure where series differ, and needs more tests where the grip stops half of them", () => {
    const short = { ...plain, location: 1.15 };
    const at = (model: RatioModel): number => testsToSettle(model, [], { seed: 2, simulations: 2000, most: 12 }).curve[4]?.probability ?? NaN;
    expect(at({ ...short, betweenShare: 0.6 })).toBeLessThan(at(short) - 0.01);
    const further = (model: RatioModel): number => testsToSettle(model, [], { seed: 2, wanted: 0.9 }).further ?? Infinity;
    const base = further(plain);
    expect(further({ ...plain, limits: [{ value: 1.4, survival: 0 }] })).toBeGreaterThan(base);
    expect(further({ ...plain, scale: 0.2 })).toBeGreaterThan(base);
  });
  it("says when no campaign settles it, and when none is needed", () => {
    expect(testsToSettle({ ...plain, location: 1.2 }, [], { seed: 3 }).further).toBeNull();
    const settled = testsToSettle({ ...plain, location: 0.8 }, [0.7, 0.8, 0.9, 0.85].map((ratio) => ({ ratio, bound: false })), { seed: 3 });
    expect(settled).toMatchObject({ truth: "falls short", further: 0 });
    expect(() => testsToSettle(plain, [], { wanted: 1.2 })).toThrow("wanted is 1.2");
    expect(() => testsToSettle(plain, [], { perSeries: 0 })).toThrow("no fewer than one series");
  });
});

describe("ratioModelOf", () => {
  it("has the share between series of a one-way analysis of variance", () => {
    const values = [1, 1.1, 0.9, 1.3, 1.4, 1.2, 0.8, 0.7, 0.85, 1.05].map((value, k) => ({ value, series: "aaabbbcccc"[k]! }));
    // R: m <- anova(lm(v ~ g)); b <- (MSB - MSW) / n0; b / (b + MSW), n0 = (10 - (9 + 9 + 16) / 10) / 2
    expect(betweenSeries(values)).toBeCloseTo(0.7642857, 6);
    expect(betweenSeries(values.slice(0, 3))).toBe(0);
  });
});

const random = createRandom("campaign tests");
/** Bars in the field with strong bars, of which some fail in bond and some by a cone, about the ACI predictions. */
const rows = Array.from({ length: 24 }, (_, k): TestRowInput => ({
  ...PLAIN, test_id: `t${k}`, series_id: `s${k % 6}`, bar_size: k < 22 ? "16" : "25", bar_strength_MPa: 9000, bar_strength_specified_MPa: 9000, concrete_strength_MPa: 70, setup: k % 2 === 0 ? "unconfined_tension" : "confined_tension",
  failure_mode: k % 2 === 0 ? "concrete_breakout" : "bond", peak_load_kN: 1,
}));
const aci = code("aci318-19");
const capacities = predict(aci, TestTable.fromRows(rows), { level: "nominal" });
const capacityOf = (row: number, mode: string): number => Math.min(...capacities.columns.filter(({ provision }) => provision.modes[0] === mode).map(({ capacity }) => capacity[row] ?? NaN).filter(Number.isFinite)) / 1000;
const tests = TestTable.fromRows(rows.map((row, k) => ({ ...row, peak_load_kN: capacityOf(k, k % 2 === 0 ? "concrete_breakout" : "bond") * Math.exp(0.3 + 0.1 * random.normal()) })));
// The bond failures are confined tests: taken as they are, since the rows are made to measure.
const comparison = compare(tests, aci, { level: "nominal", confinedBondFactor: 1 });

describe("specimenFor", () => {
  it("has the probability of two log-normal strengths where only two modes are free", () => {
    const found = specimenFor(comparison, "bond", rows[1]!, { embedments: [8], simulations: 20_000, seed: 5 })!;
    const candidate = table({ ...rows[1]!, setup: "unconfined_tension", embedment_mm: found.embedment_mm, member_thickness_mm: 400 });
    const capacity = (mode: string): number => Math.min(...predict(aci, candidate, { level: "nominal" }).columns.filter(({ provision }) => provision.modes[0] === mode).map(({ capacity: [force = NaN] }) => force).filter(Number.isFinite));
    const law = (mode: string) => ratioModelOf(comparison.evidence.filter((one) => one.mode === mode), () => "", "lognormal")!;
    const [bond, cone] = [law("bond"), law("concrete_breakout")];
    const distance = Math.log(capacity("concrete_breakout")) + cone.location - Math.log(capacity("bond")) - bond.location;
    const expected = normal().cdf(distance / Math.hypot(bond.scale, cone.scale));
    expect(Math.abs(found.probability - expected)).toBeLessThan(3 * Math.sqrt(0.25 / 20_000));
    expect(found.rival === "concrete breakout" || found.rival === "concrete_breakout" || expected > 0.9999).toBe(true);
  });
  it("takes the specimen of least load that reaches the wanted probability, else the most probable and says so", () => {
    const far = specimenFor(comparison, "concrete_breakout", rows[0]!, { wanted: 0.999999, embedments: [15], spacings: [], seed: 5 })!;
    expect(far.reached).toBe(false);
    const best = specimenFor(comparison, "bond", rows[0]!, { wanted: 0.5, seed: 5 })!;
    expect(best.reached).toBe(true);
    expect(specimenFor(comparison, "bond", rows[0]!, { wanted: 0.5, embedments: [best.embedment_mm / 15.875], seed: 5 })!.load_kN).toBeGreaterThanOrEqual(best.load_kN - 1e-9);
    expect(specimenFor(comparison, "splitting", rows[0]!, { seed: 5 })).toBeNull();
  });
});

describe("planTests", () => {
  const plan = planTests(comparison, { materials: ["gfrp", "bfrp"], modes: ["bond"], seed: 1, simulations: 100 });
  it("has a line for every cell, tested or not, and says what it rests on", () => {
    expect(plan.map(({ cell }) => [cell.material, cell.size, cell.group?.n ?? 0, cell.basis])).toEqual([["gfrp", "16", 11, "own tests"], ["gfrp", "25", 1, "tests of the material"], ["bfrp", "16", 0, "tests of the mode"], ["bfrp", "25", 0, "tests of the mode"]]);
    const lacking = plan[1]!;
    expect(lacking.cell.group?.verdict).toBe("too few tests");
    expect(lacking.settle?.further).toBeGreaterThan(0);
    expect(lacking.specimens).toBeGreaterThanOrEqual(lacking.settle!.further!);
    expect(lacking.specimens! % 3).toBe(0);
    expect(lacking.reading).toMatch(/further tests .* make \d+ specimens, embedded \d+ mm, far from edges/);
    expect(plan[2]!.specimen).toBeNull();
  });
  it("is the same again and makes a table", () => {
    expect(planTests(comparison, { materials: ["gfrp", "bfrp"], modes: ["bond"], seed: 1, simulations: 100 })).toEqual(plan);
    expect(testPlanTable(plan, { id: "plan", title: "Plan" }).rows).toHaveLength(4);
  });
  it("plans from nothing by a first series only", () => {
    const cells = evidenceCells({ ...comparison, evidence: comparison.evidence.filter(({ mode }) => mode === "bond").slice(0, 2) }, ["gfrp"], () => "");
    expect(cells[0]).toMatchObject({ model: null, basis: "nothing" });
  });
});
