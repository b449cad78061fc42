import { beforeAll, describe, expect, it } from "vitest";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import { ancova, regressionByGroup } from "../../kernel-lib/src/regression";
import { lineBySeries } from "../../kernel-lib/src/statistics";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
});

describe("ratio along the bar diameter", () => {
  it("cell 15: slopes, differences and values at sizes are those of the rooms", () => {
    const bond = study.compare("aci318-19").mode("bond");
    const size = bond.by("bar_material").trend("bar_diameter_mm", { at: [8, 10, 25, 32] });
    const rows = [...bond].filter((row) => row.lower_bound === "no");
    const input = {
      y: rows.map((row) => Math.log(row.ratio)),
      x: rows.map((row) => row.bar_diameter_mm),
      groups: rows.map((row) => row.bar_material),
      standardErrors: { clusters: rows.map((row) => row.series_id) },
    };
    const fits = regressionByGroup({ ...input, columns: { x: input.x } }).groups;
    const slopes = size.table("slopes");
    for (const found of fits) {
      if (found.status !== "ok") throw new Error(found.reading);
      const name = found.group === "steel" ? "steel" : found.group.toUpperCase();
      const row = slopes.rows.find(({ group }) => group === name)!;
      expect(row["n"]).toBe(found.n);
      expect(row["slope"]).toBeCloseTo(found.fit.coefficient("x").estimate, 12);
      expect(row["lower"]).toBeCloseTo(found.fit.coefficient("x").lower, 12);
      expect(row["p"]).toBeCloseTo(found.fit.coefficient("x").p!, 12);
    }
    const { slopeDifferences } = ancova(input);
    const gap = size.table("slope differences").rows.find(({ first }) => first === "BFRP");
    const known = slopeDifferences.find(
      ({ first, second }) => [first, second].sort().join() === "bfrp,gfrp",
    )!;
    expect(Math.abs(Number(gap!["slope"]))).toBeCloseTo(Math.abs(known.estimate), 10);

    const steel = rows.filter(({ bar_material }) => bar_material === "steel");
    const [at8] = lineBySeries({
      y: steel.map(({ ratio }) => Math.log(ratio)),
      x: steel.map(({ bar_diameter_mm }) => bar_diameter_mm),
      series: steel.map(({ series_id }) => series_id),
      grid: [8],
      fractile: 0.05,
      confidence: 0.9,
    });
    const line = size.table("at sizes").rows.find(({ group, x }) => group === "steel" && x === 8)!;
    expect(line["characteristic"]).toBeCloseTo(Math.exp(at8!), 8);
    expect(line["extrapolated"]).toBe("yes");
    expect(size.table("at sizes").length).toBe(12);
    expect(size.answer).toMatch(/at 8 mm, beyond the sizes tested, .*at 32 mm, beyond/);
    expect(size.answer).toMatch(/^[^.]*(\.\d[^.]*)*\.$/);
    expect(size.findings().text).toContain("lower bounds are left out of the lines");
    expect(size.figure("lines").caption).toContain("Open triangles: lower bounds, left out");
    for (const view of ["residuals", "quantiles"] as const)
      expect(size.figure(view).alt).toContain(`${rows.length}`);
  });

  it("slopes of different modes are not compared; a group without a line says why", () => {
    const all = study
      .compare("aci318-19")
      .mode("bar_rupture", "pryout")
      .by("mode", "bar_material")
      .trend("bar_diameter_mm", { seriesEffect: false, scale: "ratio" });
    const pairs = all.table("slope differences").rows;
    expect(pairs.length).toBe(3);
    expect(pairs.every(({ first }) => String(first).startsWith("pryout"))).toBe(true);
    expect(all.findings().text).toMatch(/Bar rupture, GFRP: no line: no test failed/);
    expect(all.table("slopes").length).toBe(6);
  });

  it("measured values, wrong names and no rows", () => {
    const groups = study.where({ setup: "confined_tension" }).by("bar_material");
    const stress = groups.trend("bar_diameter_mm", { value: "bond_stress_MPa" });
    expect(stress.answer).toMatch(/^Bond stress along bar diameter, series effect included/);
    const ratios = study.compare("aci318-19").mode("bond").by("bar_material");
    expect(() => ratios.trend("bar_diameter" as "bar_diameter_mm")).toThrow(/bar_diameter_mm/);
    expect(() => ratios.trend("setup" as "bar_diameter_mm")).toThrow(UnknownNameError);
    expect(() => ratios.trend("bar_diameter_mm", { scale: "logs" as "log" })).toThrow(/log/);
    const none = study
      .compare("aci318-19")
      .mode("bond")
      .where({ lower_bound: "yes" })
      .by("bar_material")
      .trend("bar_diameter_mm");
    expect(none.answer).toMatch(/^No line of the ratio .* no test failed in this group/);
    expect(none.table("at sizes").length).toBe(0);
    expect(none.figure("lines").title).toContain("against bar diameter");
  });
});
