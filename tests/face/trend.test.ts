import { beforeAll, describe, expect, it } from "vitest";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import {
  ancova,
  mixedModel,
  regressionByGroup,
  rowDiagnostics,
} from "../../kernel-lib/src/regression";
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
    expect(size.answer).toMatch(/at 8 mm, beyond the range tested, .*at 32 mm, beyond/);
    expect(size.answer).toMatch(/^[^.]*(\.\d[^.]*)*\.$/);
    expect(size.findings().text).toContain("lower bounds are omitted from the lines");
    expect(size.figure("lines").caption).toContain("Open triangles: lower bounds");
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

describe("views of a trend", () => {
  it("lines: n counts failures only, and the line is dashed beyond the range tested", () => {
    const bond = study.compare("aci318-19").mode("bond");
    const figure = bond
      .by("bar_material")
      .trend("bar_diameter_mm", { at: [8, 32] })
      .figure();
    const steel = [...bond].filter(({ bar_material }) => bar_material === "steel");
    const n = steel.filter(({ lower_bound }) => lower_bound === "no").length;
    const titles = JSON.stringify(figure.layout["annotations"]);
    expect(n).toBeLessThan(steel.length);
    expect(titles).toContain(`steel (n = ${n})`);
    expect(titles.replace(/<br>/g, " ")).toContain(`${steel.length - n} lower bounds`);
    const dashed = figure.data.filter(
      (trace) => (trace["line"] as { dash?: string })?.dash === "dash",
    );
    expect(dashed.length).toBe(6);
    const sizes = [...bond].map(({ bar_diameter_mm }) => bar_diameter_mm);
    for (const { x } of dashed) {
      const [first, last] = [(x as number[])[0]!, (x as number[]).at(-1)!];
      expect(last <= Math.min(...sizes) || first >= Math.max(...sizes)).toBe(true);
    }
    // The dotted line is the bound of the table: both at the ends asked for.
    const table = bond
      .by("bar_material")
      .trend("bar_diameter_mm", { at: [8, 32] })
      .table("at sizes");
    const dotted = figure.data.filter(
      (trace) => (trace["line"] as { dash?: string })?.dash === "dot",
    );
    const ends = dotted.flatMap(({ y }) => [(y as number[])[0], (y as number[]).at(-1)]);
    table.column("characteristic").forEach((one, k) => expect(ends[k]).toBeCloseTo(Number(one), 8));
  });

  it("gaps: ratio of medians at a size is that of the two lines", () => {
    const size = study
      .compare("aci318-19")
      .mode("bond")
      .by("bar_material")
      .trend("bar_diameter_mm", { at: [10, 16, 32] });
    const at = size.table("at sizes").rows;
    const height = (group: unknown, x: unknown): number =>
      Number(at.find((row) => row["group"] === group && row["x"] === x)!["fitted"]);
    const gaps = size.table("gaps").rows;
    expect(gaps.length).toBe(9);
    for (const { first, second, x, gap, lower, upper, extrapolated } of gaps) {
      expect(gap).toBeCloseTo(height(first, x) / height(second, x), 10);
      expect(Number(lower)).toBeLessThan(Number(gap));
      expect(Number(upper)).toBeGreaterThan(Number(gap));
      expect(extrapolated).toBe(x === 32 ? "yes" : "no");
    }
  });

  it("series model: pooled and with further columns, as mixedModel gives them", () => {
    const bond = study.compare("aci318-19").mode("bond");
    const size = bond
      .by("bar_material")
      .trend("bar_diameter_mm", { allowFor: ["adhesive", "cracked"] });
    const rows = [...bond].filter((row) => row.lower_bound === "no");
    const is = (holds: (row: (typeof rows)[number]) => boolean): number[] =>
      rows.map((row) => (holds(row) ? 1 : 0));
    const model = mixedModel({
      y: rows.map(({ ratio }) => Math.log(ratio)),
      columns: {
        bfrp: is(({ bar_material }) => bar_material === "bfrp"),
        gfrp: is(({ bar_material }) => bar_material === "gfrp"),
        d: rows.map(({ bar_diameter_mm }) => bar_diameter_mm),
        q: is(({ adhesive }) => adhesive === "Q"),
        uncracked: is(({ cracked }) => cracked === "no"),
      },
      studies: rows.map(({ series_id }) => series_id),
    });
    const table = size.table("series model");
    const finer = table.rows.filter((row) => row["model"] !== "pooled");
    const of = (name: string): number =>
      Number(finer.find(({ quantity }) => String(quantity).startsWith(name))!["estimate"]);
    expect(of("slope over bar diameter, 1/mm")).toBeCloseTo(model.coefficient("d").estimate, 8);
    expect(of("GFRP")).toBeCloseTo(model.coefficient("gfrp").estimate, 8);
    expect(of("adhesive Q")).toBeCloseTo(model.coefficient("q").estimate, 8);
    expect(of("uncracked")).toBeCloseTo(model.coefficient("uncracked").estimate, 8);
    expect(of("SD between series")).toBeCloseTo(model.betweenStudySd.estimate, 8);
    expect(table.notes.join(" ")).toContain("Shifts are relative to steel, adhesive P, cracked.");
    expect(size.answer).toMatch(/; allowing for adhesive and cracked, .*\.$/);
    expect(size.findings().text).toMatch(/Model that allows for adhesive and cracked, one slope/);
    const shifts = size.table("shifts");
    expect(shifts.length).toBe(new Set(rows.map(({ series_id }) => series_id)).size);
    expect(shifts.column("n").reduce<number>((sum, n) => sum + Number(n), 0)).toBe(rows.length);
    const trend = bond.by("bar_material");
    expect(() => trend.trend("bar_diameter_mm", { allowFor: ["adhesiv" as "adhesive"] })).toThrow(
      /adhesive/,
    );
  });

  it("outliers are named, in table and findings, and none is removed", () => {
    const chosen = study.where({ setup: "confined_tension", failure_mode: "bond" });
    const plain = chosen.by("bar_class").trend("bar_diameter_mm", { value: "peak_load_kN" });
    const fitted = plain.table("slopes").column("n");
    const outliers = plain.table("outliers");
    const [steel] = [...new Set(chosen.column("bar_class"))].filter((one) => one === "steel");
    const rows = [...chosen].filter((row) => row.bar_class === steel && row.excluded === null);
    const [found] = regressionByGroup({
      y: rows.map((row) => Math.log(row.peak_load_kN)),
      columns: { x: rows.map((row) => row.bar_diameter_mm) },
      groups: rows.map(() => "steel"),
    }).groups;
    if (found?.status !== "ok") throw new Error("no line");
    const flagged = rowDiagnostics(found.fit).flagged.map((row) => rows[row]!.test_id);
    expect(
      outliers.rows.filter(({ group }) => group === "steel").map(({ test_id }) => test_id),
    ).toEqual(flagged);
    expect(plain.findings().text).toContain(
      outliers.length === 0 ? "No outlier or influential test" : "to check, none removed",
    );
    expect(fitted.reduce<number>((sum, n) => sum + Number(n), 0)).toBe(chosen.length);
  });

  it("one series, one group, one size: every view says why it is empty", () => {
    const nothing = study.where({ bar_material: "afrp" });
    const along = nothing.compare("aci318-19").by("bar_material").trend("bar_diameter_mm");
    expect(along.answer).toBe("No line of the ratio along bar diameter can be fitted: no rows.");
    expect([...along.findings()]).toEqual([along.answer]);
    const stress = nothing.by("setup").trend("bar_diameter_mm", { value: "bond_stress_MPa" });
    expect(stress.answer).toContain("no rows");
    const [first] = study.where({ failure_mode: "bond" });
    const own = study.where({ series_id: first!.series_id });
    const trend = own
      .compare("aci318-19", { scope: "all" })
      .mode("bond")
      .by("bar_material")
      .trend("bar_diameter_mm", { allowFor: ["adhesive"], unit: "study_id", at: [8, 32] });
    expect(trend.answer).toMatch(/^No line of the ratio/);
    expect(trend.findings().text).toContain("not fitted");
    for (const view of ["slopes", "gaps", "series model", "shifts", "outliers"] as const)
      expect(trend.table(view).title).not.toBe("");
    expect(trend.table("series model").notes.join(" ")).toContain("Not fitted");
    for (const view of ["lines", "residuals", "quantiles"] as const)
      expect(trend.figure(view).title).not.toBe("");
  });
});
