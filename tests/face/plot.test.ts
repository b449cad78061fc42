import { mkdtempSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { openStudy } from "../../kernel-lib/src/face/open-study";
import { plotOf } from "../../kernel-lib/src/face/plot/plot-of";
import { tableOf } from "../../kernel-lib/src/face/plot/table-of";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";
import type { Study } from "../../kernel-lib/src/face/study";
import type { KeptFigure } from "../../kernel-lib/src/face/results/kept";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ keep: "none", data: "datasets/demo" });
});

/** Traces of marks by name, of lines by their type. */
const traces = (figure: KeptFigure, mode: "markers" | "lines") =>
  figure.data.filter((trace) => trace["mode"] === mode);
const count = (trace: { readonly [key: string]: unknown }): number =>
  (trace["x"] as readonly number[]).length;

describe("figures of one's own", () => {
  it("cell 27: one column, panels, a least-squares line without lower bounds that says so", async () => {
    const custom = study.compare("aci318-19").mode("bond", "concrete_breakout").plot({
      x: "embedment_to_diameter",
      y: "ratio",
      color: "bar_material",
      panel: "mode",
      line: "least squares",
      reference: 1,
      size: "one column",
      title: "Ratio against depth",
    });
    expect(custom.layout.width).toBe(333);
    expect(custom.title).toBe("Ratio against depth");
    expect(custom.caption).toMatch(/Open triangles: \d+ lower bounds\. .*lower bounds omitted/);
    const path = join(mkdtempSync(join(tmpdir(), "plot-")), "ratio-against-depth.pdf");
    await custom.save(path);
    expect(statSync(path).size).toBeGreaterThan(5000);
    const rows = [...study.compare("aci318-19").mode("bond", "concrete_breakout")];
    const bounds = rows.filter((row) => row.lower_bound === "yes").length;
    const open = traces(custom, "markers").filter(
      ({ name }) => typeof name === "string" && name.startsWith("lower bound"),
    );
    expect(open.reduce((sum, trace) => sum + count(trace), 0)).toBe(bounds);
    const all = traces(custom, "markers").reduce((sum, trace) => sum + count(trace), 0);
    expect(all).toBe(rows.length);
  });

  it("the line is that of least squares by hand: Sxy/Sxx = 10.2/5 = 2.04, 5.05 - 2.04 * 2.5 = -0.05", () => {
    const rows = [2, 4.1, 5.9, 8.2].map((y, i) => ({ x: i + 1, ratio: y, lower_bound: "no" }));
    const withBound = [...rows, { x: 4, ratio: 1, lower_bound: "yes" }];
    const figure = plotOf(withBound, { x: "x", y: "ratio", line: "least squares" });
    const [line] = traces(figure, "lines");
    const [x, y] = [line!["x"], line!["y"]] as [number[], number[]];
    expect([x[0], x.at(-1)]).toEqual([1, 4]);
    expect(y[0]).toBeCloseTo(-0.05 + 2.04, 10);
    expect(y.at(-1)).toBeCloseTo(-0.05 + 4 * 2.04, 10);
    expect(figure.caption).toContain("lower bounds omitted");
  });

  it("on log axes the line is a power law, and values not above zero are counted", () => {
    const rows = [1, 2, 4, 8].map((x) => ({ x, y: 3 * x ** -0.5 }));
    const figure = plotOf([...rows, { x: 0, y: 1 }], {
      x: "x",
      y: "y",
      line: "least squares",
      log: "both",
    });
    const [line] = traces(figure, "lines");
    const [x, y] = [line!["x"], line!["y"]] as [number[], number[]];
    x.forEach((one, k) => expect(y[k]).toBeCloseTo(3 * one ** -0.5, 10));
    expect(figure.caption).toMatch(/of ln y on ln x.*1 of 5 rows have no value above zero/);
  });

  it("tests by set-up; wrong names throw with the nearest match; no rows give an empty figure", () => {
    const tests = study.where({ action: "tension" });
    const figure = tests.plot({ x: "bar_diameter_mm", y: "bond_stress_MPa", symbol: "cracked" });
    expect(figure.title).toBe("Bond stress against bar diameter");
    expect(() =>
      tests.plot({ x: "bar_diameter" as "bar_diameter_mm", y: "ratio" as never }),
    ).toThrow(/bar_diameter_mm/);
    expect(() =>
      tests.plot({ x: "embedment_mm", y: "bond_stress_MPa", size: "one colum" as "one column" }),
    ).toThrow(UnknownNameError);
    const none = study.where({ study_id: "none" }).plot({ x: "embedment_mm", y: "peak_load_kN" });
    expect(JSON.stringify(none.layout)).toContain("No data to show");
    expect(() => plotOf([], { x: "a", y: "b" })).not.toThrow();
  });
});

describe("tables of one's own", () => {
  it("columns, units and the stamp of invented data come from the rows", () => {
    const table = tableOf(
      [
        { bar: "GFRP", mean_MPa: 12.1, provenance: "demo" },
        { bar: "steel", mean_MPa: null, provenance: "demo" },
      ],
      { title: "Bond stress", columns: ["bar", "mean_MPa"] },
    );
    expect(table.name).toBe("bond-stress");
    expect(table.toMarkdown()).toContain("mean (MPa)");
    expect(table.column("mean_MPa")).toEqual([12.1, null]);
    expect(table.notes.join(" ")).toContain("Invented demonstration data");
    expect(() => tableOf([{ bar: 1 }], { columns: ["bra"] })).toThrow(/bar/);
    const twice = tableOf([{ bar: "GFRP" }, { bar: "GFRP" }]);
    expect(twice.column("row")).toEqual([1, 2]);
    expect(tableOf([]).length).toBe(0);
  });
});

describe("further views of ratios", () => {
  it("ratio against, spread, probability plot and mode map", () => {
    const groups = study.compare("aci318-19").mode("pryout").by("mode", "bar_material");
    const against = groups.figure("ratio against", { x: "concrete_strength_MPa" });
    expect(against.title).toBe("Test-to-predicted ratio against concrete strength");
    expect(() => groups.figure("ratio against", { x: "setup" })).toThrow(UnknownNameError);
    expect(groups.figure("spread").alt).toMatch(/pryout, steel: median .*n = 24/);
    expect(groups.figure("probability plot").alt).toContain("3 panels");
    expect(study.compare("aci318-19").figure("spread").alt).toContain("3 groups");
    expect(groups.figure("mode map").caption).toContain("pryout");
  });

  it("cell 12: statistics by size and adhesive", () => {
    const groups = study.compare("aci318-19").mode("bond");
    const table = groups
      .by("bar_material", "bar_size", "adhesive")
      .table("statistics", { title: "Bond ratio by bar size and adhesive" });
    expect(table.title).toBe("Bond ratio by bar size and adhesive");
    expect(table.column("n").reduce<number>((sum, n) => sum + Number(n), 0)).toBe(
      [...groups].filter((row) => row.lower_bound === "no").length,
    );
  });
});
