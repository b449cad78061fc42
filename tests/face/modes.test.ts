import { beforeAll, describe, expect, it } from "vitest";
import { modeAgreement, modeTable } from "../../kernel-lib/src/comparison";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import type { Study } from "../../kernel-lib/src/face/study";
import type { Figure } from "../../kernel-lib/src/figures";
import { shapiroWilk } from "../../kernel-lib/src/statistics";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
});

describe("predicted and observed modes", () => {
  it("counts agreement among the judged tests", () => {
    const table = {
      observed: ["bond", "pryout"],
      predicted: ["bond", "pryout", "none", "not judged"],
      counts: [
        [5, 1, 2, 4],
        [3, 7, 0, 0],
      ],
    };
    // Paper: 5 + 7 agree of 5 + 1 + 3 + 7 judged; 22 tests in all.
    expect(modeAgreement(table)).toEqual({ tests: 22, judged: 16, agree: 12 });
  });

  it("names what each number counts, in one format", () => {
    const governed = study.compare("aci318-19", { capacityOf: "governing mode" });
    const excluded = [...study.column("excluded")].filter((reason) => reason !== null).length;
    const tests = (study.length - excluded).toLocaleString("en-US");
    const judged = new Set([...governed].map(({ test_id }) => test_id)).size;
    expect(governed.findings().text).toContain(
      `of ${tests} tests that are not excluded, ${judged} are judged; the predicted mode is the`,
    );
    expect(governed.answer).toContain(`${judged} of ${study.length.toLocaleString("en-US")} rows`);
    expect(governed.figure("mode map").caption).toContain(`of ${tests} tests`);
    const none = study.compare("aci440.1r-15", { capacityOf: "governing mode" });
    expect(none.answer).toMatch(/none of 1,\d+ rows gives a ratio/);
    expect(none.findings().text).toMatch(/0 are judged, so observed and predicted modes are not/);
  });

  it("draws every code that judges a test, and counts the rows of a condition alone", () => {
    const codes = study.compare(["aci318-19", "en1992-4-2018", "aci440.1r-15"]);
    const rows = codes.figure("mode map").layout["yaxis"] as { ticktext: string[] };
    const of = (id: string): number => rows.ticktext.filter((row) => row.startsWith(id)).length;
    expect(of("aci318-19")).toBeGreaterThan(5);
    expect(of("en1992-4-2018")).toBe(of("aci318-19"));
    expect(of("aci440.1r-15")).toBe(0);
    const shear = study.compare("aci318-19").mode("pryout");
    const counted = modeAgreement(modeTable(shear.parts[0]!.pairs)).tests;
    expect(counted).toBe(new Set([...shear].map(({ test_id }) => test_id)).size);
  });

  it("gives the tests without a ratio by reason, each once", () => {
    const governed = study.compare("aci318-19", { capacityOf: "governing mode" });
    const without = governed.table("without ratio");
    const sum = without.column("tests").reduce<number>((total, n) => total + Number(n), 0);
    expect(sum).toBe(study.length - new Set([...governed].map(({ test_id }) => test_id)).size);
  });
});

describe("a study without rows", () => {
  it("says so in every result and throws nothing", () => {
    const ratios = study.where({ test_id: "nobody" }).compare("aci318-19");
    const groups = ratios.by("mode", "bar_material", "adhesive");
    expect(ratios.answer).toMatch(/none of 0 rows gives a ratio/);
    expect(groups.answer).toMatch(/^No group/);
    expect(groups.findings().text).toBe(groups.answer);
    expect(groups.withVerdict("meets").findings().text).toBe("No group in general: meets.");
    for (const view of ["verdicts", "statistics", "cells", "distributions"] as const)
      expect(groups.table(view).length).toBe(0);
    expect(() => ratios.by("adhesives" as "adhesive")).toThrow(/did you mean adhesive/);
  });
});

describe("distributions of groups", () => {
  it("gives p of both and the verdict of each, for the groups shown", () => {
    const shear = study.compare("aci318-19").mode("bar_shear").by("bar_material");
    const table = shear.table("distributions");
    expect(table.column("bar_material")).toEqual(shear.table().column("bar_material"));
    const lognormal = shear.judge({ distribution: "lognormal" });
    expect(table.column("lower_lognormal")).toEqual(lognormal.table().column("lower"));
    expect(table.column("lower_normal")).toEqual(
      shear.judge({ distribution: "normal" }).table().column("lower"),
    );
    // One cell: the residuals are the ratios over one mean, so W and p are those of the ratios.
    const one = study.compare("aci318-19").mode("bar_shear").where({ bar_material: "steel" });
    const ratios = [...one].filter((row) => row.lower_bound === "no").map(({ ratio }) => ratio);
    const known = shapiroWilk(ratios);
    const cell = one.by("bar_material").judge({ cells: [] }).table("distributions");
    expect(known.status).toBe("ok");
    expect(cell.column("p_normal")[0]).toBeCloseTo(known.status === "ok" ? known.p : NaN, 10);
  });

  it("draws the characteristic ratio of one group", () => {
    const bond = study.compare("aci318-19").mode("bond");
    const names = ({ data }: Pick<Figure, "data">): string =>
      JSON.stringify(data.map((trace) => trace["name"]));
    const one = bond.by("mode");
    const lower = [...one][0]!.lower!;
    expect(names(one.figure("test against predicted", { color: "bar_material" }))).toContain(
      `characteristic ratio ${Number(lower.toPrecision(3))}`,
    );
    expect(names(bond.by("bar_material").figure("test against predicted"))).not.toContain(
      "characteristic",
    );
  });
});
