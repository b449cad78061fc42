import { beforeAll, describe, expect, it } from "vitest";
import type { Study } from "../../kernel-lib/src/face/study";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import type { Factors } from "../../kernel-lib/src/face/proposals/factors";
import { factorCase, type FactorCase } from "../../kernel-lib/src/proposals";
import { code } from "../../kernel-lib/src/provisions";
import { factorTable, steelPairTable } from "../../kernel-lib/src/tables";

let study: Study;
let factors: Factors<"mode" | "bar_material">;
let found: FactorCase;
beforeAll(async () => {
  study = await openStudy({ keep: "none" });
  factors = study.compare("aci318-19").by("mode", "bar_material").factors();
  found = factorCase(study.data.tests, code("aci318-19"));
}, 120_000);

const text = { id: "t", title: "t" };

describe("factors of groups", () => {
  it("has the numbers of the factor case", () => {
    const cells = new Map(factors.table("criteria").rows.map((row) => [row["label"], row]));
    for (const row of factorTable(found.factors, text).rows)
      expect(cells.get(row["label"])).toEqual(row);
    expect(factors.length).toBeGreaterThan(found.factors.length);
    const pairs = factors
      .table("steel pairs")
      .rows.filter((row) => found.factors.some(({ label }) => label === row["label"]));
    expect(pairs.length).toBe(steelPairTable(found.factors, text).rows.length);
  });

  it("answers, draws and tells its findings", () => {
    expect(factors.answer).toMatch(
      /groups of FRP bars by mode, bar material, ACI 318-19.*below 1\.0/,
    );
    expect(factors.answer).toContain("The lowest is 0.65 for concrete edge breakout, BFRP");
    expect([...factors.findings()].join(" ")).toContain("may be pooled");
    const figure = factors.figure("criteria");
    expect(figure.alt).not.toBe("");
    expect(JSON.stringify(figure.layout)).toContain("n = 120, 28 LB");
    expect(figure.invented).toBeTruthy();
    expect(factors.figure("series effect").title).toContain("series effect");
    expect(factors.figure().id).toContain("criteria");
  });

  it("gives one factor by its group, and says why there is none", () => {
    const pryout = factors.factor({ mode: "pryout", bar_material: "gfrp" });
    const derived = found.factors.find(({ label }) => label === "pryout, GFRP")!;
    expect(pryout.value).toBe(derived.exact);
    expect(pryout.proposed).toBe(derived.rounded);
    const bond = factors.factor({ mode: "bond", bar_material: "bfrp" });
    const studies = found.factors
      .find(({ label }) => label === "bond, BFRP")!
      .leftOut.filter(({ unit }) => unit === "study");
    expect(bond.withoutWorstStudy).toBe(
      studies.length === 0 ? null : Math.min(...studies.map(({ factor }) => factor!)),
    );
    expect(bond.lower["as steel"]).toBe(bond.value);
    expect(factors.factor({ mode: "bond", bar_material: "steel" }).reason).toContain("steel bars");
    expect(factors.factor({ mode: "bond", bar_material: "afrp" }).proposed).toBeNull();
    expect(() => factors.factor({ mode: "bond" })).toThrow(/2 groups have.*bond, BFRP; bond, GFRP/);
    expect(() => factors.factor({ bar_size: "16" } as never)).toThrow(/grouping column "bar_size"/);
  });

  it("leaves out studies and series in turn", () => {
    const studies = factors.leaveOut("study_id");
    expect(studies.answer).toMatch(/without any one study/);
    const rows = studies.table().rows;
    for (const one of found.factors)
      for (const part of one.leftOut.filter(({ unit }) => unit === "study"))
        expect(
          rows.find((row) => row["group"] === one.label && row["left"] === part.left)?.["factor"],
        ).toBe(part.factor);
    expect(() => factors.leaveOut("study" as never)).toThrow(/did you mean.*study_id|study_id/);
  });

  it("proposes what the factor case proposes", () => {
    const proposal = factors.propose();
    expect(proposal.proposed).toEqual(found.proposals);
    expect(proposal.changes.map(({ provision, factor }) => [provision, factor])).toEqual(
      found.proposals.map(({ changes, factor }) => [changes, factor]),
    );
    expect(proposal.changes.every(({ supported }) => supported)).toBe(true);
    expect(proposal.changedCode.id).toBe("aci318-19");
  });

  it("says which factors become changes, and why the others do not", () => {
    const rows = new Map(factors.table("changes").rows.map((row) => [row["mode"], row]));
    const proposed = found.proposals.map(({ changes, factor }) => [changes, Number(factor)]);
    const changed = [...rows.values()].filter((row) => row["change"] !== null);
    expect(changed.map((row) => [String(row["provisions"]).split(", ")[0], row["change"]])).toEqual(
      proposed,
    );
    expect(rows.get("concrete breakout")!["reason"]).toMatch(/no change; propose\(\) changes only/);
    expect(rows.get("bar shear")!["reason"]).toContain("no factor below 1.0 is needed");
    expect(rows.get("pryout")!["reason"]).toContain("no factor for pryout, BFRP");
    expect(factors.answer).toContain("2 changes proposed: 0.75 in bond, 0.65 in concrete edge");
  });

  it("judges a proposal on the rows of its comparison", () => {
    const bond = study.compare("aci318-19").mode("bond");
    const proposal = bond
      .where({ lower_bound: "no" })
      .by("mode", "bar_material")
      .factors()
      .propose();
    const change = proposal.beforeAfter("mode", "bar_material");
    expect(change.table().rows.map((row) => row["mode"])).toEqual(["bond", "bond", "bond"]);
    const counts = change.table("safety and economy").rows.map((row) => row["n_lower_bounds"]);
    expect(counts).toEqual([0, 0, 0]);
    expect(change.answer).toContain("failures in the mode only");
    const edges = proposal.table("evidence").rows.map((row) => row["mode"]);
    expect(new Set(edges)).toEqual(new Set(["bond"]));
  });

  it("refuses what does not exist, and says why there is nothing", () => {
    const few = study.where({ failure_mode: "pryout" }).compare("aci318-19").mode("pryout");
    const groups = few.by("mode", "bar_material");
    expect(() => groups.factors({ criterion: "as stele" as never })).toThrow(/as steel/);
    expect(() => groups.factors({ loads: "nowak" as never })).toThrow(/nowak-2003/);
    expect(() => groups.factors({ step: 0 })).toThrow(/above 0/);
    expect(() =>
      study.where({ test_id: "none" }).compare(["aci318-19", "ccd-1995"]).by("mode").factors(),
    ).toThrow(/one code/);
    const steel = few.where({ bar_class: "steel" });
    const none = steel.by("mode", "bar_material").factors();
    expect(none.answer).toContain("No factor");
    expect(none.table().rows).toEqual([]);
    expect(none.propose().answer).toContain("No change");
    expect(none.leaveOut("series_id").answer).toContain("Nothing to leave out");
    expect(() => none.figure()).not.toThrow();
    expect(() => none.choices().figure()).not.toThrow();
    const unnamed = few.by("bar_material").factors();
    expect(unnamed.propose().answer).toContain("name no provision");
    expect(unnamed.alternatives().answer).toContain("No alternatives");
  });

  it("keeps to the fiber that was tested", () => {
    const edge = study.compare("aci318-19").mode("concrete_edge_breakout");
    const gfrp = edge.where({ bar_material: ["gfrp", "steel"] }).by("mode", "bar_material");
    const [change] = gfrp.factors().propose().proposed;
    expect(change).toMatchObject({
      where: "gfrp == 1",
      factor: "0.75",
      title: "GFRP bars in concrete edge breakout",
    });
    // A group that holds steel and FRP is derived from its FRP bars alone.
    const mixed = edge
      .where({ bar_material: ["gfrp", "steel"] })
      .by("mode")
      .factors();
    expect([...mixed][0]!.value).toBe([...gfrp.factors()][0]!.value);
  });
});

describe("choices and alternatives", () => {
  it("counts the analyses that a factor does not exceed", () => {
    const edge = study.compare("aci318-19").mode("concrete_edge_breakout");
    const choices = edge.by("mode", "bar_material").factors().choices();
    expect(choices.answer).toContain("reasonable analys");
    const row = choices.table().rows[0]!;
    expect(Number(row["adequate"])).toBeLessThanOrEqual(Number(row["analyses"]));
    expect(choices.figure().data.length).toBeGreaterThan(0);
  });
  it("compares the usual alternatives", () => {
    const alternatives = study
      .compare("aci318-19")
      .mode("concrete_edge_breakout")
      .by("mode", "bar_material")
      .factors()
      .alternatives();
    expect(alternatives.outcomes.map(({ label }) => label)).toContain("no change");
    expect(alternatives.table().rows.length).toBe(alternatives.outcomes.length);
    expect(alternatives.figure("safety and economy").data.length).toBeGreaterThan(0);
  }, 60_000);
});
