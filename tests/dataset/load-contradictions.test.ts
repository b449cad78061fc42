import { describe, expect, it } from "vitest";
import {
  emptyDataset,
  parseTests,
  parseTestsJson,
  testsCsv,
  TestTable,
  TEST_COLUMNS,
} from "../../kernel-lib/src/dataset";

const HEAD =
  "test_id,study_id,series_id,bar_material,bar_diameter_mm,installation,concrete_strength_MPa,concrete_strength_basis,embedment_mm,failure_mode,setup,action,peak_load_kN,load_angle_deg";
const read = (rows: readonly string[], head = HEAD): ReturnType<typeof parseTests> =>
  parseTests(
    new TextEncoder().encode(
      [
        head,
        ...rows.map((row, i) => `T${i},s,a,gfrp,16,post_installed,30,cylinder,128,bond,${row}`),
      ].join("\n"),
    ),
    "tests.csv",
  );

describe("action, set-up and load angle of one row", () => {
  it.each([
    ["combined_loading,tension_and_shear,50,30", null],
    ["unconfined_tension,tension,50,", null],
    ["unconfined_tension,tension,50,0", null],
    ["direct_shear,shear,50,90", null],
    ["combined_loading,tension_and_shear,50,", /load_angle_deg is blank .*above 0 and below 90/],
    ["combined_loading,tension_and_shear,50,0", /load_angle_deg "0" is tension alone/],
    ["combined_loading,tension_and_shear,50,90", /load_angle_deg "90" is shear alone/],
    ["combined_loading,tension_and_shear,50,120", /at most 90/],
    ["unconfined_tension,tension,50,30", /load_angle_deg "30" contradicts action tension/],
    ["direct_shear,shear,50,0", /load_angle_deg "0" contradicts action shear/],
    [
      "unconfined_tension,tension_and_shear,50,30",
      /setup "unconfined_tension" contradicts action tension_and_shear, expected combined_loading/,
    ],
    ["combined_loading,tension,50,", /setup "combined_loading" contradicts action tension/],
  ])("%s", (row, refused) => {
    const { tests, diagnostics, rejected } = read([row]);
    const errors = diagnostics.filter(({ severity }) => severity === "error");
    expect([tests.length, rejected.length]).toEqual(refused === null ? [1, 0] : [0, 1]);
    if (refused === null) expect(diagnostics).toEqual([]);
    else expect(errors.map(({ message }) => message).join()).toMatch(refused);
  });

  it("needs the angle where the file has no such column", () => {
    expect(
      read(["combined_loading,tension_and_shear,50"], HEAD.replace(",load_angle_deg", "")).rejected,
    ).toHaveLength(1);
  });

  it("meets records as well", () => {
    const records = [
      {
        ...Object.fromEntries(HEAD.split(",").map((name) => [name, ""])),
        test_id: "1",
        study_id: "s",
        series_id: "a",
        bar_material: "gfrp",
        bar_diameter_mm: 16,
        installation: "post_installed",
        concrete_strength_MPa: 30,
        concrete_strength_basis: "cylinder",
        embedment_mm: 128,
        failure_mode: "bond",
        setup: "combined_loading",
        action: "tension",
        peak_load_kN: 50,
      },
    ];
    expect(
      parseTestsJson(new TextEncoder().encode(JSON.stringify(records)), "tests.json").rejected,
    ).toHaveLength(1);
  });
});

describe("columns of installation, hole and temperature", () => {
  const COLUMNS = [
    "installation_direction",
    "hole_drilling",
    "hole_cleaning",
    "hole_cleaning_steps",
    "hole_moisture",
    "installation_temperature_degC",
    "test_temperature_degC",
  ];
  const head = `${HEAD.replace(",load_angle_deg", "")},${COLUMNS.join(",")}`;

  it("are read, written and read back as they were", () => {
    const { tests, diagnostics } = read(
      ["unconfined_tension,tension,50,overhead,hollow_bit,reduced,2 x blow,water_filled,-5,43"],
      head,
    );
    expect(diagnostics).toEqual([]);
    expect(COLUMNS.map((name) => tests.row(0)[name as "hole_drilling"])).toEqual([
      "overhead",
      "hollow_bit",
      "reduced",
      "2 x blow",
      "water_filled",
      -5,
      43,
    ]);
    expect(parseTests(new TextEncoder().encode(testsCsv(tests)), "tests.csv").tests.rows()).toEqual(
      tests.rows(),
    );
    expect(TestTable.fromRows(tests.rows()).rows()).toEqual(tests.rows());
  });

  it("an unknown word is refused with the likely one", () => {
    expect(
      read(["unconfined_tension,tension,50,ceiling,hammer,none,,dry,20,20"], head)
        .diagnostics.map(({ message }) => message)
        .join(),
    ).toMatch(/installation_direction "ceiling".*overhead/);
  });

  // NIST SP 811 (2008), B.8: t/degC = (t/degF - 32) / 1.8; 50 degF is the least temperature of ACI
  // 318-19 26.7.2 (from memory).
  it.each([
    [50, 10],
    [32, 0],
    [-40, -40],
    [68, 20],
    [175, 79.4444444444],
  ])("%s degF is %s degC", (fahrenheit, celsius) => {
    const { tests, diagnostics } = read(
      [`unconfined_tension,tension,50,${fahrenheit}`],
      `${HEAD.replace(",load_angle_deg", "")},test_temperature_degF`,
    );
    expect(tests.row(0).test_temperature_degC).toBeCloseTo(celsius, 10);
    expect(diagnostics.map(({ rule }) => rule)).toEqual(["converted-unit"]);
  });

  it("stand in the template of own data and in its descriptor", () => {
    const files = emptyDataset("own");
    for (const name of [...COLUMNS, "load_angle_deg"]) {
      expect(files["tests.csv"]?.split("\n")[0]?.split(",")).toContain(name);
      expect(files["README.md"]).toContain(`\`${name}\``);
      expect(files["datapackage.json"]).toContain(`"${name}"`);
    }
    expect(
      TEST_COLUMNS.map(({ name }) => name).slice(
        TEST_COLUMNS.findIndex(({ name }) => name === "hole_diameter_mm") + 1,
      ),
    ).toEqual(expect.arrayContaining(COLUMNS));
  });
});
