import { describe, expect, it } from "vitest";
import { findings, good, HEADER, ids, read } from "./test-file";

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
