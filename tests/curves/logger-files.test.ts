import { describe, expect, it } from "vitest";
import { isInside, parseCurve, reduceCurvesOf } from "../../kernel-lib/src/curves";
import { readDataset } from "../../kernel-lib/src/dataset";
import { CURVE_TRUTH } from "../../kernel-lib/src/demonstration";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe("logger files", () => {
  it("finds the header below the logger's own lines, with a units row, decimal commas and inches", () => {
    const rows = Array.from(
      { length: 12 },
      (_, i) => `${String(i)};${String(i)},5;0,0${String(10 + i)}`,
    ).join("\r\n");
    const { curve, diagnostics } = parseCurve(
      bytes(`Logger 7;;\r\nChannel file;;\r\nTime;Force;Free end\r\n(s);(kip);(in)\r\n${rows}\r\n`),
      "a.txt",
    );
    expect(diagnostics).toEqual([]);
    expect(curve?.load_kN[0]).toBeCloseTo(0.5 * 4.4482216152605, 10);
    expect(curve?.gauges[0]?.values_mm[0]).toBeCloseTo(0.254, 10);
    expect(curve?.gauges[0]?.place).toBe("free_end");
    expect(curve?.time_s?.[11]).toBe(11);
  });

  it.each([
    ["", "empty-file"],
    ["a,b\n1,2\n", "no-load-column"],
    ["load_kN\n1\n", "no-gauge-column"],
    ["load_kN,load_2_kN,s_mm\n1,1,1\n", "no-load-column"],
    ["load_kN,s_mm\n1,2\n", "too-short"],
  ])("refuses %j", (text, rule) => {
    const { curve, diagnostics } = parseCurve(bytes(text), "a.csv");
    expect(curve).toBeNull();
    expect(diagnostics.map((d) => d.rule)).toContain(rule);
  });

  it("leaves out a bad reading and says which", () => {
    const rows = Array.from({ length: 12 }, (_, i) =>
      i === 5 ? "over,0.1" : `${String(i)},0.${String(i)}`,
    ).join("\n");
    const { curve, diagnostics } = parseCurve(bytes(`load_kN,s_mm\n${rows}\n`), "a.csv");
    expect(curve?.load_kN.length).toBe(11);
    expect(diagnostics[0]).toMatchObject({ row: 7, value: "over", severity: "warning" });
  });
});

describe("records of a data set", () => {
  it("flow into its tests, with a link to the record", async () => {
    const demo = await readDataset(new URL("../../datasets/demo", import.meta.url).pathname);
    const { tests, curves, diagnostics } = await reduceCurvesOf(demo, {
      freeLength_mm: CURVE_TRUTH.freeLength_mm,
    });
    expect(diagnostics.filter(({ severity }) => severity !== "information")).toEqual([]);
    expect(curves.length).toBeGreaterThanOrEqual(24);
    expect(tests.length).toBe(demo.tests.length);
    const linked = tests.where((row) => typeof row.extra["curve"] === "string");
    expect(linked.length).toBe(curves.length);
    for (const row of linked.rows())
      expect(Math.abs(Number(row.extra["curve_peak_kN"]) / row.peak_load_kN - 1)).toBeLessThan(
        0.01,
      );
  });

  it.each(["../../etc/passwd", "/etc/passwd", "C:\\x", "a\\..\\..\\b"])(
    "a link that leads out of the folder is refused: %s",
    (link) => {
      expect(isInside(link)).toBe(false);
    },
  );
});
