import { describe, expect, it } from "vitest";
import {
  diagnosticHtml,
  parseTests,
  parseTestsJson,
  type TestsReading,
} from "../../kernel-lib/src/dataset";

const HEADER =
  "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,setup,action,peak_load_kN,failure_mode";
const good = (id: string, load = "50"): string =>
  `${id},s,a,gfrp,16,post_installed,30,cylinder,128,confined_tension,tension,${load},bond`;
const read = (text: string | Uint8Array): TestsReading =>
  parseTests(typeof text === "string" ? new TextEncoder().encode(text) : text, "t.csv");
const ids = (reading: TestsReading): Array<string | null> => [...reading.tests.texts("test_id")];

/** The reading's findings of one rule; fails when there are none. */
function findings(reading: TestsReading, rule: string) {
  const found = reading.diagnostics.filter((finding) => finding.rule === rule);
  expect(
    found.length,
    `findings of ${rule} among ${reading.diagnostics.map((d) => d.rule).join(", ")}`,
  ).toBeGreaterThan(0);
  return found;
}

describe("a faulty file is reported, and the good rows go on", () => {
  it("reads a file in order without a word", () => {
    const reading = read(`${HEADER}\n${good("1")}\n`);
    expect(reading.diagnostics).toEqual([]);
    expect(reading.tests.row(0)).toMatchObject({
      test_id: "1",
      bar_diameter_mm: 16,
      peak_load_kN: 50,
      edge_1_mm: null,
      failure_mode: "bond",
    });
  });

  it.each([
    ["a text in a number column", good("2", "fifty"), "not-a-number", "peak_load_kN", "fifty"],
    ["a negative load", good("2", "-5"), "out-of-limits", "peak_load_kN", "-5"],
    ["a load of nothing", good("2", ""), "missing-value", "peak_load_kN", ""],
    [
      "a word for missing in a required cell",
      good("2", "n/a"),
      "missing-value",
      "peak_load_kN",
      "n/a",
    ],
    ["infinity", good("2", "1e999"), "not-a-number", "peak_load_kN", "1e999"],
    ["hexadecimal", good("2", "0x10"), "not-a-number", "peak_load_kN", "0x10"],
    ["a unit behind the number", good("2", "50 kN"), "not-a-number", "peak_load_kN", "50 kN"],
    ["thousands with an apostrophe", good("2", "1'000"), "not-a-number", "peak_load_kN", "1'000"],
    [
      "an unknown failure mode",
      good("2").replace(/bond$/, "exploded"),
      "unknown-category",
      "failure_mode",
      "exploded",
    ],
    ["a duplicate id", good("1"), "duplicate-id", "test_id", "1"],
  ])("%s", (_what, row, rule, column, value) => {
    const reading = read(`${HEADER}\n${good("1")}\n${row}\n${good("3")}\n`);
    expect(findings(reading, rule)[0]).toMatchObject({
      file: "t.csv",
      row: 3,
      column,
      value,
      severity: "error",
    });
    expect(findings(reading, rule)[0]?.expected.length).toBeGreaterThan(3);
    expect(ids(reading)).toEqual(["1", "3"]);
    expect(reading.setAside.map(({ row: at }) => at)).toEqual([3]);
    expect(reading.setAside[0]?.cells.join(",")).toBe(row);
  });

  it("keeps an unknown column and offers the likely name", () => {
    const reading = read(`${HEADER},bar_sufrace,colour\n${good("1")},ribbed,red\n`);
    const found = findings(reading, "unknown-column");
    expect(found.map(({ column, expected }) => [column, expected])).toEqual([
      ["bar_sufrace", "bar_surface"],
      ["colour", "a column of the data contract"],
    ]);
    expect(reading.tests.text(0, "colour")).toBe("red");
    expect(reading.tests.row(0).extra["bar_sufrace"]).toBe("ribbed");
  });

  it("says which required column is absent, once, and uses no row", () => {
    const reading = read(
      `${HEADER.replace(",peak_load_kN", "")}\n${good("1").replace(",50,", ",")}\n`,
    );
    expect(findings(reading, "missing-column")).toHaveLength(1);
    expect(reading.tests.length).toBe(0);
    expect(reading.setAside).toHaveLength(1);
  });

  it.each([
    ["", "empty-file"],
    ["\n\n", "empty-file"],
    [`${HEADER}\n`, "no-rows"],
  ])("an empty file %#", (text, rule) => {
    const reading = read(text);
    expect(findings(reading, rule)[0]).toMatchObject({ file: "t.csv", severity: "error" });
    expect(reading.tests.length).toBe(0);
  });

  it("refuses binary files and spreadsheets with a plain sentence", () => {
    expect(findings(read(Uint8Array.of(0x50, 0x4b, 3, 4)), "not-text")[0]?.message).toMatch(
      /zip archive or spreadsheet/,
    );
    expect(findings(read(Uint8Array.of(65, 0, 66)), "not-text")[0]?.message).toMatch(/binary/);
  });

  it("lets no header reach the prototype of anything", () => {
    const reading = read(`${HEADER},__proto__,constructor,toString\n${good("1")},polluted,x,y\n`);
    expect(findings(reading, "reserved-name").map(({ column }) => column)).toEqual([
      "__proto__",
      "constructor",
    ]);
    expect(ids(reading)).toEqual(["1"]);
    expect(Object.entries(reading.tests.row(0).extra)).toEqual([["toString", "y"]]);
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
    expect(Object.getPrototypeOf(reading.tests.row(0))).toBe(Object.prototype);
  });

  it("sets ragged rows aside and skips blank lines", () => {
    const reading = read(
      `${HEADER}\n${good("1")}\n\n${good("2")},more\n${good("3").slice(0, -5)}\n${good("4")},,\n,,,,\n${good("5")}\n`,
    );
    expect(findings(reading, "ragged-row").map(({ row }) => row)).toEqual([4, 5]);
    expect(ids(reading)).toEqual(["1", "4", "5"]);
  });

  it("keeps the rows before a quotation mark that never closes", () => {
    const reading = read(
      `${HEADER},remarks\n${good("1")},"all ""well"", so far"\n${good("2")},"never closed\n${good("3")},x\n`,
    );
    expect(findings(reading, "broken-quotes")[0]).toMatchObject({ row: 3 });
    expect(ids(reading)).toEqual(["1"]);
    expect(reading.tests.text(0, "remarks")).toBe('all "well", so far');
  });

  it("makes control characters in messages visible", () => {
    const reading = read(`${HEADER}\n${good("2", "\u001b[31m5\u202e")}\n`);
    expect(findings(reading, "not-a-number")[0]?.message).not.toMatch(/[\u001b\u202e]/);
  });
});

describe("other people's files", () => {
  const semicolons = `${HEADER}\n${good("1")}`.replaceAll(",", ";");
  it.each([
    ["a byte order mark", `\ufeff${HEADER}\n${good("1")}`],
    ["CRLF", `${HEADER}\r\n${good("1")}\r\n`],
    ["CR alone", `${HEADER}\r${good("1")}\r`],
    ["semicolons", semicolons],
    ["tabs", semicolons.replaceAll(";", "\t")],
    [
      "quoted cells",
      `${HEADER}\n${good("1")
        .split(",")
        .map((c) => `"${c}"`)
        .join(",")}`,
    ],
    [
      "capitals and blanks in names",
      `${HEADER.replace("test_id", "Test ID").replace("bar_material", "Bar material")}\n${good("1")}`,
    ],
    [
      "capitals in words",
      `${HEADER}\n${good("1").replace("gfrp", "GFRP").replace("post_installed", "Post-installed")}`,
    ],
  ])("reads %s", (_what, text) => {
    const reading = read(text);
    expect(reading.diagnostics.filter(({ severity }) => severity !== "information")).toEqual([]);
    expect(reading.tests.row(0)).toMatchObject({
      test_id: "1",
      bar_material: "gfrp",
      installation: "post_installed",
      peak_load_kN: 50,
      concrete_strength_MPa: 30,
    });
  });

  it("reads UTF-16 with a byte order mark, and Windows-1252 with a note", () => {
    const utf16 = Buffer.concat([
      Buffer.from([0xff, 0xfe]),
      Buffer.from(`${HEADER}\n${good("1")}`, "utf16le"),
    ]);
    expect(ids(read(utf16))).toEqual(["1"]);
    const latin = read(Buffer.from(`${HEADER},remarks\n${good("1")},Größe`, "latin1"));
    expect(latin.tests.text(0, "remarks")).toBe("Größe");
    expect(findings(latin, "encoding")[0]?.severity).toBe("information");
  });

  it("reads decimal commas where no number has a point", () => {
    const reading = read(
      `${HEADER}\n${good("1", "50,25")}`.replaceAll(",", ";").replace("50;25", "50,25"),
    );
    expect(reading.tests.number(0, "peak_load_kN")).toBe(50.25);
    const quoted = read(`${HEADER}\n${good("1", '"50,25"')}\n`);
    expect(quoted.tests.number(0, "peak_load_kN")).toBe(50.25);
  });

  it("refuses commas where other numbers have points, and refuses 1,234, which reads two ways", () => {
    const rows = (a: string, b: string): string =>
      `${HEADER}\n${good("1", "A")}\n${good("2", "B")}`
        .replaceAll(",", ";")
        .replace("A", a)
        .replace("B", b);
    const mixed = read(rows("50.5", "50,5"));
    expect(findings(mixed, "not-a-number")[0]).toMatchObject({ row: 3, value: "50,5" });
    const doubtful = read(rows("1,234", "12"));
    // A thousand or one and a bit: no number is made of it.
    expect(doubtful.tests.texts("test_id")).toEqual(["2"]);
    expect(findings(doubtful, "not-a-number")[0]).toMatchObject({
      severity: "error",
      row: 2,
      value: "1,234",
      message: expect.stringContaining(
        "may be 1234 with a thousands separator or 1.234 with a decimal comma",
      ) as string,
    });
  });

  it("converts units named in the header and says so", () => {
    const header = HEADER.replace("peak_load_kN", "peak_load_lbf")
      .replace("embedment_mm", "Embedment (in.)")
      .replace("concrete_strength_MPa", "concrete_strength_psi");
    const reading = read(
      `${header}\n${good("1", "10000").replace(",128,", ",5,").replace(",30,", ",4000,")}\n`,
    );
    expect(findings(reading, "converted-unit").map(({ column }) => column)).toEqual([
      "concrete_strength_psi",
      "Embedment (in.)",
      "peak_load_lbf",
    ]);
    // 10,000 lbf = 44.482216152605 kN; 5 in. = 127 mm; 4,000 psi = 27.579029 MPa (NIST SP 811)
    expect(reading.tests.number(0, "peak_load_kN")).toBeCloseTo(44.482216152605, 10);
    expect(reading.tests.number(0, "embedment_mm")).toBe(127);
    expect(reading.tests.number(0, "concrete_strength_MPa")).toBeCloseTo(27.579029, 6);
  });

  it("takes units from a units row, and refuses a unit that contradicts the name", () => {
    const header = HEADER.replace("peak_load_kN", "peak_load");
    const units = (load: string, diameter = ""): string => `,,,,${diameter},,MPa,,mm,,,${load},`;
    const reading = read(`${header}\n${units("kip")}\n${good("1", "10")}\n`);
    expect(reading.tests.number(0, "peak_load_kN")).toBeCloseTo(44.482216152605, 10);
    expect(reading.tests.source(0)).toEqual({ file: "t.csv", row: 3 });
    const contradiction = read(`${header}\n${units("kip", "in")}\n${good("1", "10")}\n`);
    expect(findings(contradiction, "unit-conflict")[0]).toMatchObject({
      column: "bar_diameter_mm",
    });
    expect(findings(read(`${header}\n${good("1")}\n`), "no-unit")[0]).toMatchObject({
      column: "peak_load",
      expected: "peak_load_kN",
    });
  });

  it("counts words for missing in optional cells as missing, aloud", () => {
    const reading = read(`${HEADER},edge_1_mm,cracked\n${good("1")},NA,-\n`);
    expect(reading.tests.row(0)).toMatchObject({ edge_1_mm: null, cracked: null });
    expect(findings(reading, "missing-word")).toHaveLength(2);
  });
});

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
      { name: "<b>", tests: reading.tests, setAside: reading.setAside },
      reading.diagnostics,
    );
    expect(page).toContain("&lt;script&gt;");
    expect(page).not.toMatch(/<script|<b>/);
  });
});
