import { describe, expect, it } from "vitest";
import { compare, groupRatios } from "../../../kernel-lib/src/comparison";
import { candidatesOf } from "../../../kernel-lib/src/figures";
import { beforeAfterOf, compareAlternatives, factorCase, groupReliability, groupStandings, loadModel, reliabilityOverLoadRatio, ruleSimplicity, usualAlternatives, type Proposal } from "../../../kernel-lib/src/proposals";
import { code } from "../../../kernel-lib/src/provisions";
import { alternativesTable, standingTable } from "../../../kernel-lib/src/tables";
import { table } from "../../provisions/specimens";

const bars = (material: "gfrp" | "bfrp" | "steel", loads: readonly number[]) => loads.map((peak_load_kN, k) => ({ test_id: `${material}${k}`, series_id: `${material}${k % 5}`, bar_material: material, failure_mode: "bond" as const, peak_load_kN }));
const tests = table(...bars("gfrp", [26, 28, 30, 31, 33, 29, 28, 30]), ...bars("bfrp", [18, 19, 20, 21, 22, 20]), ...bars("steel", [30, 31, 32, 33, 34, 32]));
const present = code("aci318-19");
const factor = (value: string, where = "frp == 1", symbol = "psi_FRP_Na"): Proposal => ({ id: `p${value}${where.slice(0, 4)}`, title: "t", changes: "aci318-19/17.6.5", symbol, where, factor: value, says: "s", rationale: "r", derivation: "d", evidence: "e" });
const by = ["mode", "bar_material"];
const group = (material: string) => groupRatios(compare(tests, present, {}), by).find((one) => one.by["mode"] === "bond" && one.by["bar_material"] === material)!;

describe("groupReliability", () => {
  it("is first-order reliability with the moments counted by series and the code's own reduction, 0.65 for bond", () => {
    const reliability = groupReliability(tests, present);
    const glass = group("gfrp");
    // ACI 318-19 Table 17.5.3(b): 0.65 for bond of category 1 without supplementary reinforcement
    expect(reliability.reductionOf(glass)).toBeCloseTo(0.65, 12);
    const expected = reliabilityOverLoadRatio({ resistance: { bias: glass.bySeries!.mean, cov: glass.bySeries!.cov }, loads: loadModel("nowak-2003") }, 0.65);
    expect(reliability.indexOf(glass)).toHaveLength(5);
    reliability.indexOf(glass)!.forEach(({ index }, k) => expect(index).toBeCloseTo(expected[k]!.reliability.index, 9));
  });
  it("a factor on the nominal is as good as on the reduction", () => {
    const change = beforeAfterOf(tests, present, [factor("0.5")], by);
    const after = change.groups.find((one) => one.label === "bond, GFRP")!.after;
    const [now] = groupReliability(tests, present, { variableShares: [0.5] }).indexOf(after)!;
    const [same] = reliabilityOverLoadRatio({ resistance: { bias: group("gfrp").bySeries!.mean, cov: group("gfrp").bySeries!.cov }, loads: loadModel("nowak-2003") }, 0.65 * 0.5, [0.5]);
    expect(now!.index).toBeCloseTo(same!.reliability.index, 6);
  });
});

describe("groupStandings", () => {
  const need = Math.floor(group("bfrp").characteristic! * 20) / 20;
  const standings = (value: string) => new Map(groupStandings(beforeAfterOf(tests, present, [factor(value)], by)).map((one) => [one.label, one]));
  it("tells mended, penalised and untouched groups apart, in words", () => {
    const found = standings(String(need));
    expect(found.get("bond, BFRP")).toMatchObject({ standing: "mended" });
    expect(found.get("bond, BFRP")!.applied).toBeCloseTo(need, 12);
    const glass = found.get("bond, GFRP")!;
    expect(glass.standing).toBe("penalised");
    expect(glass.takenTooMuch).toBeCloseTo(1 - need / Math.min(1, Math.floor(group("gfrp").characteristic! * 20) / 20), 9);
    expect(glass.reading).toContain("penalised: the factor");
    expect(found.get("bond, steel")!.applied).toBe(1);
  });
  it("calls short what is short still", () => {
    expect(standings("0.99").get("bond, BFRP")).toMatchObject({ standing: "still short" });
    expect(standingTable([...standings("0.99").values()], { id: "s", title: "S" }).column("verdict")).toContain("still short");
  });
});

describe("ruleSimplicity", () => {
  it("counts printed numbers once a symbol, and different comparisons once", () => {
    expect(ruleSimplicity([])).toEqual({ numbers: 0, conditions: 0, lookUps: 0 });
    expect(ruleSimplicity([factor("0.8"), { ...factor("0.8"), changes: "aci318-19/17.7.2" }])).toMatchObject({ numbers: 1, conditions: 1 });
    expect(ruleSimplicity([factor("0.8"), factor("0.8", "frp == 1", "psi_V")])).toMatchObject({ numbers: 2, conditions: 1 });
    expect(ruleSimplicity([factor("if(d_a <= 0.5, 0.8, 0.7)", "gfrp == 1 && cracked == 1")])).toMatchObject({ numbers: 2, conditions: 3 });
    expect(ruleSimplicity([factor("1")])).toMatchObject({ numbers: 0, conditions: 1 });
  });
});

describe("compareAlternatives", () => {
  const alternatives = [{ label: "none", proposals: [] }, { label: "low", proposals: [factor("0.3")] }, { label: "fit", proposals: [factor("0.4")] }, { label: "split", proposals: [factor("0.4", "bfrp == 1", "psi_b"), factor("0.4", "gfrp == 1", "psi_g")] }];
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
    expect(candidatesOf(found).filter(({ onFrontier }) => !onFrontier).map(({ label }) => label)).toEqual(["split"]);
    expect(alternativesTable(found, { id: "a", title: "A" }).column("verdict")[3]).toContain('dominated by "fit"');
  });
  it("safety rises and economy falls as the factor falls; each is what its tests say", () => {
    expect(of("low").leastCharacteristic).toBeGreaterThan(of("fit").leastCharacteristic ?? NaN);
    expect(of("low").usedStrength).toBeCloseTo(0.75 * (of("fit").usedStrength ?? NaN), 12);
    expect(of("low").meanRatio).toBeCloseTo((of("fit").meanRatio ?? NaN) / 0.75, 12);
    expect(of("none").shareUnsafe).toBeGreaterThanOrEqual(of("fit").shareUnsafe ?? NaN);
  });
  it("refuses one name twice", () => {
    expect(() => compareAlternatives(tests, present, [alternatives[0]!, alternatives[0]!], by)).toThrow('named "none"');
  });
  it("has the usual alternatives of a case, each with limits of validity from its own tests", () => {
    const usual = usualAlternatives(factorCase(tests, present, { resamples: 100 }));
    expect(usual.map(({ label }) => label)).toEqual(["no change", "one a mode, worst material", "one a mode and material", "along the size, each material"]);
    for (const { proposals } of usual) for (const { limits } of proposals) expect(limits?.map(({ column }) => column)).toEqual(["bar_diameter_mm", "embedment_mm", "concrete_strength_MPa"]);
  });
});
