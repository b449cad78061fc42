import { beforeAll, describe, expect, it } from "vitest";
import {
  classStrata,
  compare,
  compareClasses,
  compareSeries,
} from "../../kernel-lib/src/comparison";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import { code } from "../../kernel-lib/src/provisions";
import { equivalenceTest } from "../../kernel-lib/src/statistics";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
});

describe("ratios against steel, mode by mode", () => {
  it("cell 13: numbers are those of compareClasses, Holm over all lines of the call", () => {
    const againstSteel = study.compare("aci318-19").by("mode").versus("steel");
    const ratios = compare(study.data.tests, code("aci318-19"), { level: "nominal" });
    const room = compareClasses(classStrata(ratios, ["mode"]), {
      column: "bar_material",
      reference: "steel",
    });
    const table = againstSteel.table();
    expect(table.length).toBe(room.length);
    expect(table.column("ratio")).toEqual(room.map(({ ratio }) => ratio));
    expect(table.column("p_adjusted")).toEqual(room.map(({ pAdjusted }) => pAdjusted));
    const compared = room.filter(({ ratio }) => ratio !== null).length;
    expect(againstSteel.findings().text).toContain(`Holm-adjusted for ${compared} comparisons`);
    expect(againstSteel.answer).toMatch(
      new RegExp(`^${compared} comparisons .* \\d+ lower, \\d+ higher, \\d+ without`),
    );
    // A pair that cannot be compared says why.
    expect(againstSteel.findings().text).toMatch(/no comparison\. 9 and 0 failures; at least 3/);
    expect(againstSteel.figure("intervals").caption).toContain("ACI 318-19");
    expect(againstSteel.table("power").length).toBe(compared);
    expect(againstSteel.figure("power").alt).toContain("True reduction".toLowerCase());
  });

  it("the column compared is no grouping column, and equivalence rises with the margin", () => {
    const bond = study.compare("aci318-19").mode("bond");
    const wide = bond.by("bar_material", "mode").versus("steel", { margin: 0.4 });
    const narrow = bond.by("mode").versus("steel", { margin: 0.1 });
    expect(wide.table().column("ratio")).toEqual(narrow.table().column("ratio"));
    const [pWide, pNarrow] = [wide, narrow].map((one) =>
      one.table().column("p_equivalence").map(Number),
    ) as [number[], number[]];
    pWide.forEach((p, k) => expect(p).toBeLessThan(pNarrow[k]!));
    // Equivalence at 5 % is a 90 % interval within the margin: the two speak of the same fit.
    const tight = bond.by("mode").versus("steel", { margin: 0.4, confidence: 0.9 }).table();
    tight.column("p_equivalence").forEach((p, k) => {
      const within =
        Number(tight.column("lower")[k]) > 0.6 && Number(tight.column("upper")[k]) < 1.4;
      expect(Number(p) < 0.05).toBe(within);
    });
  });

  it("a wrong name throws with the nearest match; no rows say why", () => {
    const groups = study.compare("aci318-19").mode("bond").by("mode");
    expect(() => groups.versus("stel" as "steel")).toThrow(/did you mean|steel/);
    expect(() => groups.versus("stel" as "steel")).toThrow(UnknownNameError);
    expect(() => groups.versus("steel", { margin: 15 })).toThrow(RangeError);
    const none = study
      .compare("aci318-19")
      .mode("bond")
      .where({ bar_material: "steel" })
      .by("mode")
      .versus("steel");
    expect(none.answer).toMatch(/^No comparison/);
    expect(none.findings().text).toContain("only steel was tested");
    expect(none.table().length).toBe(0);
    expect(none.figure().data.length).toBeGreaterThan(0);
  });
});

describe("a reference that no test has", () => {
  it("is no error: the comparison is empty and says so; a word that it cannot be throws", () => {
    const frp = study.where({ bar_class: "frp" });
    const ratios = frp.compare("aci318-19").by("mode").versus("steel");
    const stress = frp.by("bar_size").versus("steel", { value: "bond_stress_MPa" });
    for (const one of [ratios, stress]) {
      expect(one.answer).toMatch(/^No comparison of the .*: no test of steel\.$/);
      expect(one.table().length).toBe(0);
      expect(one.findings().text).toContain(one.answer);
      for (const view of ["intervals", "power"] as const)
        expect(one.figure(view).title).not.toBe("");
    }
    expect(() =>
      frp.by("bar_size").versus("stel" as "steel", { value: "bond_stress_MPa" }),
    ).toThrow(UnknownNameError);
  });

  it("the typical detectable difference is the middle one of the table", () => {
    const modes = study.compare("aci318-19").by("mode").versus("steel");
    const known = modes
      .table("power")
      .column("detectable")
      .map(Number)
      .sort((a, b) => a - b);
    const typical = Math.round(100 * known[Math.floor(known.length / 2)]!);
    expect(modes.answer).toContain(`a difference of at least ${typical} % of the reference`);
  });

  it("file names keep the view", () => {
    const stress = study
      .where({ setup: "confined_tension" })
      .by("bar_size", "adhesive", "cracked")
      .versus("steel", { value: "bond_stress_MPa" });
    expect(stress.table("power").name).toMatch(/^bond-stress-versus-steel-by-size-.*-power$/);
    expect(stress.table().name).toMatch(/-differences$/);
    expect(stress.table().name.length).toBeLessThanOrEqual(60);
  });
});

describe("measured values against steel", () => {
  it("cell 14: Welch and equivalence are those of compareSeries", () => {
    const chosen = study.where({ setup: "confined_tension", failure_mode: "bond" });
    const stress = chosen
      .by("bar_size", "adhesive")
      .versus("steel", { value: "bond_stress_MPa", margin: 0.1 });
    const values = chosen.column("bond_stress_MPa");
    const room = compareSeries(chosen.chosen.table, {
      column: "bar_material",
      reference: "steel",
      within: ["bar_size", "adhesive"],
      value: (row) => values[row]!,
      margin: 0.1,
    });
    const table = stress.table();
    expect(room.length).toBeGreaterThan(10);
    expect(table.column("ratio")).toEqual(room.map(({ ratio }) => ratio));
    expect(table.column("p_adjusted")).toEqual(room.map(({ pAdjusted }) => pAdjusted));
    expect(table.column("p_equivalence")).toEqual(room.map(({ pEquivalence }) => pEquivalence));
    const of = (material: string): number[] =>
      [...chosen]
        .filter((row) => row.bar_size === "16" && row.adhesive === "Q")
        .filter((row) => row.bar_material === material)
        .map((row) => row.bond_stress_MPa!);
    const same = equivalenceTest(of("steel"), of("gfrp"), { ratioFrom: 0.9, ratioTo: 1.1 });
    const line = table.rows.find(
      (row) => row["bar_size"] === "16" && row["adhesive"] === "Q" && row["other"] === "GFRP",
    );
    expect(line?.["p_equivalence"]).toBeCloseTo(same.status === "ok" ? same.p : NaN, 12);
    expect(
      stress
        .table("power")
        .column("tests_needed")
        .every((n) => Number(n) >= 2),
    ).toBe(true);
    expect(stress.findings().text).toContain("Welch t");
  });

  it("groups of tests count every row once; wrong names throw", () => {
    const groups = study.by("bar_material", "setup");
    const counts = groups.table("counts").column("n").map(Number);
    expect(counts.reduce((sum, n) => sum + n, 0)).toBe(study.length);
    expect(groups.group({ bar_material: "gfrp", setup: "splice" }).length).toBe(
      study.where({ bar_material: "gfrp", setup: "splice" }).length,
    );
    expect(groups.figure("coverage").caption).toContain("Number of tests");
    expect(groups.figure("strips", { x: "embedment_mm" }).alt).toContain("Embedment");
    expect(() => groups.figure("strips", { x: "setup" })).toThrow(UnknownNameError);
    expect(() => study.by("bar_sice" as "bar_size")).toThrow(/bar_size/);
  });
});
