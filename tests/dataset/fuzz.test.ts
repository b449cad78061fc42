import { describe, expect, it } from "vitest";
import { parseCurve } from "../../kernel-lib/src/curves";
import {
  importTable,
  parseCurveValues,
  parseDataPackage,
  parseStudies,
  parseTests,
  parseTestsJson,
  parseTestsSpreadsheet,
  testsCsv,
  TestTable,
  type Recipe,
} from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { createRandom } from "../../kernel-lib/src/statistics/random";
import { mutated } from "./mutate";
import { zip } from "./spreadsheet/zip";

const seeds = [
  testsCsv(TestTable.fromRows(generateDemonstration(1).tests.slice(0, 6))),
  "test_id;study_id;peak_load_lbf\n;;lbf\na;b;1,5\n",
  'load_kN,free_mm\n1,2\n"3",4\n',
  "study_id,provenance\na,own\n",
  '{"name":"x","resources":[{"name":"tests","path":"tests.csv","schema":{"fields":[{"name":"a"}]}}]}',
].map((text) => new TextEncoder().encode(text));

describe("mutated files", () => {
  it("never crash a reader, never give a row that breaks the contract, never touch a prototype", () => {
    const random = createRandom("fuzz readers");
    for (let k = 0; k < 4000; k += 1) {
      const bytes = mutated(random.choice(seeds), random);
      const reading = parseTests(bytes, "fuzz.csv");
      expect(
        reading.tests.numbers("peak_load_kN").every((load) => load > 0 && Number.isFinite(load)),
      ).toBe(true);
      expect(reading.diagnostics.every(({ message }) => message.length > 5)).toBe(true);
      if (reading.tests.length === 0)
        expect(reading.diagnostics.some(({ severity }) => severity === "error")).toBe(true);
      parseStudies(bytes, "fuzz.csv");
      parseDataPackage(new TextDecoder().decode(bytes), "fuzz.json");
      const { curve } = parseCurve(bytes, "fuzz.csv");
      if (curve !== null) expect(curve.load_kN.every(Number.isFinite)).toBe(true);
    }
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  it("JSON, spreadsheets and reduced values: the same, whatever is changed in them or inside the archive", () => {
    const random = createRandom("fuzz other readers");
    const rows = generateDemonstration(1)
      .tests.slice(0, 4)
      .map(({ extra: _extra, ...row }) => row);
    const json = new TextEncoder().encode(JSON.stringify(rows));
    const header = Object.keys(rows[0] ?? {});
    const cell = (value: string | number | null): string =>
      typeof value === "number"
        ? `<c><v>${String(value)}</v></c>`
        : `<c t="inlineStr"><is><t>${value ?? ""}</t></is></c>`;
    const line = (cells: ReadonlyArray<string | number | null>): string =>
      `<row>${cells.map(cell).join("")}</row>`;
    const sheet = new TextEncoder().encode(
      `<worksheet><sheetData>${line(header)}${rows.map((row) => line(Object.values(row))).join("")}</sheetData></worksheet>`,
    );
    const archive = (inner: Uint8Array): Uint8Array =>
      zip({
        "xl/workbook.xml":
          '<workbook><sheets><sheet name="A" sheetId="1" r:id="r1"/></sheets></workbook>',
        "xl/_rels/workbook.xml.rels":
          '<Relationships><Relationship Id="r1" Target="worksheets/sheet1.xml"/></Relationships>',
        "xl/worksheets/sheet1.xml": inner,
      });
    expect(parseTestsSpreadsheet(archive(sheet), "fuzz.xlsx").tests.length).toBe(4);
    expect(parseTestsJson(json, "fuzz.json").tests.length).toBe(4);
    for (let k = 0; k < 800; k += 1) {
      const inside = archive(mutated(sheet, random));
      for (const { tests, diagnostics } of [
        parseTestsJson(mutated(json, random), "fuzz.json"),
        parseTestsSpreadsheet(k % 2 === 0 ? inside : mutated(archive(sheet), random), "fuzz.xlsx"),
      ]) {
        expect(
          tests.numbers("peak_load_kN").every((load) => load > 0 && Number.isFinite(load)),
        ).toBe(true);
        if (tests.length === 0)
          expect(diagnostics.some(({ severity }) => severity === "error")).toBe(true);
      }
      for (const own of parseCurveValues(
        mutated(new TextEncoder().encode("test_id,curve,curve_peak_kN\na,b,3.5\n"), random),
        "v.csv",
      ).values.values())
        expect(Object.values(own).every((value) => value === null || Number.isFinite(value))).toBe(
          true,
        );
    }
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  it("a recipe on a mutated table: every row is imported or rejected with a reason, or the table is refused as a whole", () => {
    const random = createRandom("fuzz recipes");
    const recipe: Recipe = {
      name: "fuzz",
      title: "fuzz",
      source: { file: "t.csv", licence: "none" },
      table: { header_row: 2, fill_down: ["Paper"] },
      study: { provenance: "published", transcription: "table", citation_from: "Paper" },
      columns: {
        test_id: { template: "t-{row}" },
        study_id: { study: true },
        series_id: { group_by: ["study_id"] },
        bar_material: { from: "Fibre", codes: { "1": { value: "gfrp", confidence: "stated" } } },
        bar_diameter_mm: { from: "d", unit: "in" },
        installation: { constant: "cast_in" },
        concrete_strength_MPa: { from: "fc", unit: "psi" },
        concrete_strength_basis: { constant: "cylinder" },
        embedment_mm: { from: "l/d", times: "bar_diameter_mm", derived: true },
        setup: { constant: "pullout_block" },
        action: { constant: "tension" },
        peak_load_kN: { from: "P", unit: "kip" },
        failure_mode: { constant: "bond" },
      },
    };
    const good = new TextEncoder().encode(
      'Title,,,,,\nPaper,fc,d,l/d,Fibre,P\n"Nobody 2019",4000,0.5,5,1,12\n,5000,0.5,5,1,13\n',
    );
    expect(importTable(good, "t.csv", recipe).tests.length).toBe(2);
    let [imported, refused] = [0, 0];
    for (let k = 0; k < 1000; k += 1) {
      try {
        const { tests, rejected, sourceRows } = importTable(mutated(good, random), "t.csv", recipe);
        expect(tests.length + rejected.length).toBe(sourceRows);
        expect(rejected.every(({ reason }) => reason.length > 5)).toBe(true);
        imported += 1;
      } catch (error) {
        expect(error).toMatchObject({ name: "DatasetError" });
        refused += 1;
      }
    }
    expect(Math.min(imported, refused)).toBeGreaterThan(50);
  });

  it("a digit changed in a number changes that number or is refused, and nothing else", () => {
    const random = createRandom("fuzz digits");
    const table = TestTable.fromRows(generateDemonstration(1).tests.slice(0, 4));
    const text = testsCsv(table);
    const header = text.split("\n", 1)[0]?.split(",") ?? [];
    for (let k = 0; k < 500; k += 1) {
      const lines = text
        .trimEnd()
        .split("\n")
        .map((line) => line.split(","));
      const row = 1 + random.integer(lines.length - 1);
      const column = random.integer(header.length);
      const typed = random.choice(["12.5", "-3", "1e3", "x", "1,5", "", "0"]);
      const line = lines[row];
      if (line === undefined) continue;
      line[column] = typed.includes(",") ? `"${typed}"` : typed;
      const reading = parseTests(
        new TextEncoder().encode(lines.map((cells) => cells.join(",")).join("\n")),
        "t.csv",
      );
      for (let i = 0; i < reading.tests.length; i += 1) {
        const source = (reading.tests.source(i)?.row ?? 0) - 1;
        const was = table.row(source - 1) as unknown as Record<string, unknown>;
        const now = reading.tests.row(i) as unknown as Record<string, unknown>;
        const different = header.filter(
          (name, at) =>
            name in was && !(source === row && at === column) && was[name] !== now[name],
        );
        expect(different).toEqual([]);
      }
    }
  });
});
