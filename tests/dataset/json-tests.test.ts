import { describe, expect, it } from "vitest";
import { diagnosticHtml, parseTestsJson, type TestsReading } from "../../kernel-lib/src/dataset";
import { findings, good, HEADER, read } from "./test-file";

describe("JSON", () => {
  const record = {
    test_id: "1",
    study_id: "s",
    series_id: "a",
    bar_material: "gfrp",
    bar_diameter_mm: 16,
    installation: "post_installed",
    concrete_strength_MPa: 30,
    concrete_strength_basis: "cylinder",
    embedment_mm: 128,
    setup: "confined_tension",
    action: "tension",
    peak_load_lbf: 10000,
    failure_mode: "bond",
    cracked: false,
  };
  const json = (value: unknown): TestsReading =>
    parseTestsJson(
      new TextEncoder().encode(typeof value === "string" ? value : JSON.stringify(value)),
      "t.json",
    );

  it("meets the same checks as CSV", () => {
    const reading = json({
      tests: [
        record,
        { ...record, test_id: "2", peak_load_lbf: "many" },
        { ...record, test_id: "3", edge_1_mm: { a: 1 } },
        7,
      ],
    });
    expect(reading.tests.row(0)).toMatchObject({ test_id: "1", cracked: "no" });
    expect(reading.tests.number(0, "peak_load_kN")).toBeCloseTo(44.482216152605, 10);
    expect(reading.tests.length).toBe(1);
    expect(findings(reading, "not-a-number")[0]).toMatchObject({ row: 3, value: "many" });
    expect(findings(reading, "nested-value")[0]).toMatchObject({ row: 4, column: "edge_1_mm" });
    expect(findings(reading, "not-a-record")[0]).toMatchObject({ row: 5 });
  });

  it.each(["", "{", "[]", "{}", "[1]", '{"tests":{}}', "null", '"x"'])("refuses %j", (text) => {
    expect(findings(json(text), "bad-json")[0]?.severity).toBe("error");
  });

  it("a __proto__ key is refused like the header", () => {
    expect(
      findings(
        json(`[${JSON.stringify(record).replace("{", '{"__proto__":"x",')}]`),
        "reserved-name",
      ),
    ).toHaveLength(1);
  });
});

describe("the page for people", () => {
  it("shows what was typed as text, never as markup", () => {
    const reading = read(`${HEADER}\n${good("2", "<script>alert(1)</script>")}\n`);
    const page = diagnosticHtml(
      { name: "<b>", tests: reading.tests, rejected: reading.rejected },
      reading.diagnostics,
    );
    expect(page).toContain("&lt;script&gt;");
    expect(page).not.toMatch(/<script|<b>/);
  });
});
