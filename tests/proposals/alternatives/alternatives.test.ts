import { describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import { candidatesOf } from "../../../kernel-lib/src/figures";
import {
  beforeAfterOf,
  compareAlternatives,
  factorCase,
  FactorDerivation,
  groupReliability,
  groupStandings,
  loadModel,
  reliabilityOverLoadRatio,
  ruleSimplicity,
  usualAlternatives,
  type Proposal,
} from "../../../kernel-lib/src/proposals";
import { code } from "../../../kernel-lib/src/provisions";
import { alternativesTable, standingTable } from "../../../kernel-lib/src/tables";
import { table } from "../../provisions/specimens";
import { expectSaid } from "../../says";

const bars = (material: "gfrp" | "bfrp" | "steel", loads: readonly number[]) =>
  loads.map((peak_load_kN, k) => ({
    test_id: `${material}${k}`,
    series_id: `${material}${k % 5}`,
    bar_material: material,
    failure_mode: "bond" as const,
    peak_load_kN,
  }));
const tests = table(
  ...bars("gfrp", [26, 28, 30, 31, 33, 29, 28, 30]),
  ...bars("bfrp", [18, 19, 20, 21, 22, 20]),
  ...bars("steel", [30, 31, 32, 33, 34, 32]),
);
const present = code("aci318-19");
const factor = (value: string, where = "frp == 1", symbol = "psi_FRP_Na"): Proposal => ({
  id: `p${value}${where.slice(0, 4)}`,
  title: "t",
  changes: "aci318-19/17.6.5",
  symbol,
  where,
  factor: value,
  says: "s",
  rationale: "r",
  derivation: "d",
  evidence: "e",
});
const by = ["mode", "bar_material"];
const group = (material: string) =>
  groupRatios(compare(tests, present, {}), by).find(
    (one) => one.by["mode"] === "bond" && one.by["bar_material"] === material,
  )!;

describe("groupReliability", () => {
  it("is first-order reliability with the moments of a further test of a further series and the code's own reduction, 0.65 for bond", () => {
    const reliability = groupReliability(tests, present);
    const glass = group("gfrp");
    // ACI 318-19 Table 17.5.3(b): 0.65 for bond of category 1 without supplementary reinforcement
    expect(reliability.reductionOf(glass)).toBeCloseTo(0.65, 12);
    const expected = reliabilityOverLoadRatio(
      {
        resistance: { bias: glass.inGeneral.ofCell!.mean, cov: glass.inGeneral.ofCell!.cov },
        loads: loadModel("nowak-2003"),
      },
      0.65,
    );
    expect(reliability.indexOf(glass)).toHaveLength(5);
    reliability
      .indexOf(glass)!
      .forEach(({ index }, k) => expect(index).toBeCloseTo(expected[k]!.reliability.index, 9));
  });
  it("a factor on the nominal is as good as on the reduction", () => {
    const change = beforeAfterOf(tests, present, [factor("0.5")], by);
    const after = change.groups.find((one) => one.label === "bond, GFRP")!.after;
    const [now] = groupReliability(tests, present, { variableShares: [0.5] }).indexOf(after)!;
    const [same] = reliabilityOverLoadRatio(
      {
        resistance: {
          bias: group("gfrp").inGeneral.ofCell!.mean,
          cov: group("gfrp").inGeneral.ofCell!.cov,
        },
        loads: loadModel("nowak-2003"),
      },
      0.65 * 0.5,
      [0.5],
    );
    expect(now!.index).toBeCloseTo(same!.reliability.index, 6);
  });
});

describe("groupStandings", () => {
  const roundedDown = (factor: number): number => Math.floor(factor * 20 + 1e-9) / 20;
  const need = roundedDown(group("bfrp").lower!);
  const changeBy = (value: string) => beforeAfterOf(tests, present, [factor(value)], by);
  const standings = (value: string) =>
    new Map(groupStandings(changeBy(value)).map((one) => [one.label, one]));
  it("names groups that now meet, that are reduced more than their own tests require, and that are untouched", () => {
    const found = standings(String(need));
    expect(found.get("bond, BFRP")).toMatchObject({ standing: "now meets", reducedMore: 0 });
    expect(found.get("bond, BFRP")!.applied).toBeCloseTo(need, 12);
    const glass = found.get("bond, GFRP")!;
    expect(glass.standing).toBe("reduced more than its own tests require");
    expect(glass.reducedMore).toBeCloseTo(
      1 - need / Math.min(1, roundedDown(group("gfrp").lower!)),
      9,
    );
    expectSaid(glass.reading, /more than .*own tests/);
    expect(found.get("bond, steel")!.applied).toBe(1);
  });
  it("a group with an upper bound below 1 still falls short; one whose bounds enclose 1 is undecided", () => {
    expect(standings("0.99").get("bond, BFRP")).toMatchObject({ standing: "still falls short" });
    expect(
      standingTable([...standings("0.99").values()], { id: "s", title: "S" }).column("verdict"),
    ).toContain("still falls short");
    const { lower, upper } = group("bfrp");
    const between = (lower! + upper!) / 2;
    expect(standings(between.toFixed(6)).get("bond, BFRP")).toMatchObject({
      standing: "undecided",
    });
    expect(changeBy(between.toFixed(6)).undecided).toContain("bond, BFRP");
  });
  it("measures the reduction by the criterion of the case where it has one, and compares with steel", () => {
    const derivation = new FactorDerivation(compare(tests, present, {}));
    const factors = ["gfrp", "bfrp"].map((material) =>
      derivation.derive(group(material), "as steel"),
    );
    expect(factors.map(({ status }) => status)).toEqual(["derived", "derived"]);
    const found = groupStandings(changeBy("0.5"), undefined, { factors });
    for (const { label, rounded, criteria } of factors) {
      const one = found.find((standing) => standing.label === label)!;
      expect(one.reducedMore).toBeCloseTo(Math.max(0, 1 - 0.5 / rounded!), 12);
      // The capacity is halved: test over capacity, and with it its ratio to that of steel,
      // doubles.
      expect([one.before.toSteel, one.after.toSteel! / 2]).toEqual([
        criteria["as steel"].lower,
        expect.closeTo(criteria["as steel"].lower!, 12),
      ]);
      expect(one.reading).toContain(
        one.after.toSteel! >= 1
          ? "at least that of steel"
          : "not shown to be at least that of steel",
      );
    }
    expect(found.find(({ label }) => label === "bond, steel")!.after.toSteel).toBeNull();
    expect(
      standingTable(found, { id: "s", title: "S" })
        .column("to_steel")
        .filter((value) => value !== null),
    ).toHaveLength(2);
  });
});

describe("ruleSimplicity", () => {
  it("counts printed numbers once a symbol, and different comparisons once", () => {
    expect(ruleSimplicity([])).toEqual({ numbers: 0, conditions: 0, lookUps: 0 });
    expect(
      ruleSimplicity([factor("0.8"), { ...factor("0.8"), changes: "aci318-19/17.7.2" }]),
    ).toMatchObject({ numbers: 1, conditions: 1 });
    expect(ruleSimplicity([factor("0.8"), factor("0.8", "frp == 1", "psi_V")])).toMatchObject({
      numbers: 2,
      conditions: 1,
    });
    expect(
      ruleSimplicity([factor("if(d_a <= 0.5, 0.8, 0.7)", "gfrp == 1 && cracked == 1")]),
    ).toMatchObject({ numbers: 2, conditions: 3 });
    expect(ruleSimplicity([factor("1")])).toMatchObject({ numbers: 0, conditions: 1 });
  });
});

describe("compareAlternatives", () => {
  const alternatives = [
    { label: "none", proposals: [] },
    { label: "low", proposals: [factor("0.3")] },
    { label: "fit", proposals: [factor("0.4")] },
    {
      label: "split",
      proposals: [factor("0.4", "bfrp == 1", "psi_b"), factor("0.4", "gfrp == 1", "psi_g")],
    },
  ];
  const found = compareAlternatives(tests, present, alternatives, by);
  const of = (label: string) => found.find((one) => one.label === label)!;
  it("judges only groups that an alternative changes", () => {
    expect(of("none").standings.map(({ label }) => label)).toEqual(["bond, BFRP", "bond, GFRP"]);
  });
  it("marks what another does at least as well with less to look up", () => {
    expect(of("split").dominatedBy).toBe("fit");
    expect(of("fit").dominatedBy).toBeNull();
    expect(of("low").dominatedBy).toBeNull();
    expect(of("none").dominatedBy).toBeNull();
    expect(of("split").reading).toContain('dominated by "fit"');
    expect(
      candidatesOf(found)
        .filter(({ onFrontier }) => !onFrontier)
        .map(({ label }) => label),
    ).toEqual(["split"]);
    expect(alternativesTable(found, { id: "a", title: "A" }).column("verdict")[3]).toContain(
      'dominated by "fit"',
    );
  });
  it("safety rises and economy falls as the factor falls; each is what its tests say", () => {
    expect(of("low").leastCharacteristic).toBeGreaterThan(of("fit").leastCharacteristic ?? NaN);
    expect(of("low").usedStrength).toBeCloseTo(0.75 * (of("fit").usedStrength ?? NaN), 12);
    expect(of("low").meanRatio).toBeCloseTo((of("fit").meanRatio ?? NaN) / 0.75, 12);
    expect(of("low").reducedMore).toEqual(expect.arrayContaining([...of("fit").reducedMore]));
    for (const { verdict, short, undecided } of found)
      expect(verdict).toBe(
        short.length > 0 ? "falls short" : undecided.length > 0 ? "undecided" : "meets",
      );
    expect(of("none").shareUnsafe).toBeGreaterThanOrEqual(of("fit").shareUnsafe ?? NaN);
  });
  it("refuses one name twice", () => {
    expect(() =>
      compareAlternatives(tests, present, [alternatives[0]!, alternatives[0]!], by),
    ).toThrow('named "none"');
  });
  it("has the usual alternatives of a case, each with limits of validity from its own tests", () => {
    const usual = usualAlternatives(factorCase(tests, present, { criterion: "fractile" }));
    expect(usual.map(({ label }) => label)).toEqual([
      "no change",
      "one per mode, lowest material",
      "one per mode and material",
      "by bar size, each material",
    ]);
    for (const { proposals } of usual)
      for (const { limits } of proposals)
        expect(limits?.map(({ column }) => column)).toEqual([
          "bar_diameter_mm",
          "embedment_mm",
          "concrete_strength_MPa",
        ]);
  });
});
