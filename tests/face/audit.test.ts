import { beforeAll, describe, expect, it } from "vitest";
import { openStudy, type Study } from "../../kernel-lib/src";
import { bondStressByStudy, compare, groupRatios } from "../../kernel-lib/src/comparison";
import { exclusions, provenance } from "../../kernel-lib/src/dataset";
import { code, predictionNeeds } from "../../kernel-lib/src/provisions";
import { UnknownNameError } from "../../kernel-lib/src/face/results/names";

let study: Study;
beforeAll(async () => {
  study = await openStudy({ data: "datasets/demo", keep: "none" });
});

const sum = (cells: readonly unknown[]): number =>
  cells.reduce<number>((total, cell) => total + Number(cell), 0);

describe("an audit of the demonstration", () => {
  it("accounts for every row: the table adds up to the rows of the files", () => {
    const audit = study.audit();
    const rows = audit.table("rows");
    const [file] = provenance(study.data);
    expect(sum(rows.column("n"))).toBe(study.data.tests.length + study.data.rejected.length);
    // The lines of the file, counted from its first and last row, are the independent check.
    expect(sum(rows.column("n"))).toBe(file!.lastRow! - file!.firstRow! + 1);
    expect(audit.answer).toContain("Every row is accounted for");
    expect(audit.table().id).toBe(rows.id);
  });

  it("shows the numbers of the rooms below", () => {
    const audit = study.audit();
    const needs = ["aci318-19", "en1992-4-2018", "aci440.1r-15"].flatMap((id) =>
      predictionNeeds(code(id), study.data.tests),
    );
    const table = audit.table("missing inputs");
    expect(table.rows.map(({ needs: names, rows, concerned }) => [names, rows, concerned])).toEqual(
      needs.map(({ columns, rows, concerned }) => [columns.join(", "), rows.length, concerned]),
    );
    expect(needs.length).toBeGreaterThan(0);
    expect(audit.table("excluded").length).toBe(exclusions(study.data.tests).length);
    expect(sum(audit.table("sources").column("rows"))).toBe(study.data.tests.length);
    const ranges = audit.table("ranges");
    expect(sum(ranges.column("n"))).toBe(study.data.tests.kept().length);
    expect(ranges.column("basis")).toEqual(ranges.rows.map(() => "cylinder"));
    for (const view of [
      "files",
      "blank cells",
      "lower bounds",
      "data checks",
      "duplicates",
    ] as const)
      expect(audit.table(view).toMarkdown()).toContain("|");
  });

  it("draws, and stamps invented data", () => {
    const audit = study.audit();
    expect(audit.figure().id).toBe("audit-coverage");
    expect(audit.figure("blank cells").invented).toBe(true);
    const strips = audit.figure("bond stress by study");
    expect(strips.caption).toMatch(/Exponent on concrete strength, .*GFRP 0\.\d\d \(standard/);
    expect(strips.data.length).toBeGreaterThan(0);
  });

  it("tells the scatter of bond stress between studies, as the room of comparison does", () => {
    const found = bondStressByStudy(study.data.tests, 30);
    const table = study.audit().table("between studies");
    expect(table.column("material")).toEqual(["BFRP", "GFRP", "steel"]);
    expect(table.column("between")).toEqual(found.map((one) => one.model!.betweenStudySd.estimate));
    expect(sum(table.column("n"))).toBe(
      study.where(
        (row) => row.failure_mode === "bond" && row.action === "tension" && row.excluded === null,
      ).length,
    );
  });

  it("names the columns that no row or every row fills", () => {
    const blank = study.audit().table("blank cells");
    for (const { filled, blank: none } of blank.rows) {
      expect(filled).toBeGreaterThan(0);
      expect(none).toBeGreaterThan(0);
    }
    expect(blank.toMarkdown()).toMatch(/Blank in every row: .*load/);
    expect(blank.toMarkdown()).toMatch(/Filled in every row: .*bar/);
  });

  it("counts tests by set-up", () => {
    const map = study.audit().figure("coverage by set-up");
    expect(map.alt).toContain("set-up and bar material");
    expect(map.id).toBe("audit-coverage-by-set-up");
  });

  it("names the nearest view and code", () => {
    expect(() => study.audit().table("missing input" as "rows")).toThrow("missing inputs");
    expect(() => study.audit({ codes: ["aci318" as "aci318-19"] })).toThrow(UnknownNameError);
  });
});

describe("a study opened with a condition", () => {
  it("looks at these tests and keeps the others in the account", async () => {
    const few = await openStudy({
      data: "datasets/demo",
      keep: "none",
      where: "bar_diameter_mm <= 13 && bar_material == 'gfrp'",
    });
    const chosen = study.where({ bar_material: "gfrp", bar_diameter_mm: { to: 13 } });
    expect(few.length).toBe(chosen.length);
    expect(few.length).toBeGreaterThan(10);
    const rows = few.audit().table("rows");
    expect(sum(rows.column("n"))).toBe(sum(study.audit().table("rows").column("n")));
    const outside = rows.rows.find(({ status }) => status === "outside the condition of the study");
    expect(outside?.["n"]).toBe(study.length - few.length);
    expect(few.audit().answer).toContain("outside the condition of the study");
  });

  it("of no rows says so in every view", async () => {
    const none = await openStudy({
      data: "datasets/demo",
      keep: "none",
      where: "bar_diameter_mm > 1000",
    });
    const audit = none.audit();
    expect(none.length).toBe(0);
    expect(audit.answer).toContain(" 0 used");
    for (const view of ["missing inputs", "lower bounds", "duplicates"] as const)
      expect(audit.table(view).length, view).toBe(0);
    expect(sum(audit.table("blank cells").column("filled"))).toBe(0);
    expect(audit.table("missing inputs").caption).toContain("No input is missing");
    expect(audit.figure("bond stress by study").caption).toContain("No test in tension");
    expect(audit.figure("coverage").caption).toContain("0 tests");
    expect(audit.figure("blank cells").caption).toContain("0 tests");
  });

  it("is judged as it says", async () => {
    const options = { confidence: 0.75, distribution: "normal" } as const;
    const own = await openStudy({
      data: "datasets/demo",
      keep: "none",
      judge: options,
      where: { failure_mode: "bond", bar_size: "13" },
    });
    const table = own.data.tests.where(
      (row) => row.failure_mode === "bond" && row.bar_size === "13",
    );
    const found = groupRatios(compare(table, code("aci318-19")), ["bar_material"], options);
    const shown = own.compare("aci318-19").by("bar_material");
    expect([...shown].map(({ label, lower }) => [label, lower])).toEqual(
      found.map(({ label, lower }) => [label, lower]),
    );
    expect(shown.answer).toContain("75 % confidence");
  });
});

it("the basis names library, data and seed", () => {
  const basis = study.basis();
  expect(basis.column("item")).toEqual(
    expect.arrayContaining(["kernel-lib", "lock file", "seed", "demo/tests.csv"]),
  );
});

describe("conditions as text", () => {
  it("choose the rows that the object chooses", () => {
    expect(study.where("embedment_mm >= 100 && bar_material == 'gfrp'").length).toBe(
      study.where({ embedment_mm: { from: 100 }, bar_material: "gfrp" }).length,
    );
    const ratios = study.where("setup == 'pullout_block'").compare("aci318-19");
    expect(ratios.where("lower_bound == 'no' && ratio > 1").length).toBe(
      ratios.where({ lower_bound: "no" }).where((row) => row.ratio > 1).length,
    );
    expect(study.where("edge_1_mm == blank").answer).toContain("(edge_1_mm == blank)");
  });

  it.each([
    ["embedment > 100", "did you mean embedment_mm"],
    ["bar_material == 'gfpr'", 'No word of bar_material "gfpr". Expected one of steel, gfrp'],
    ["bar_material == gfrp", 'No column "gfrp"'],
    ["embedment_mm == 'long'", "embedment_mm holds numbers"],
    ["bar_material == 3", "bar_material holds words"],
    ["process.exit(1)", "holds a part of kind CallExpression"],
  ])("%s is refused", (text, says) => {
    expect(() => study.where(text)).toThrow(says);
  });
});

describe("options of codes", () => {
  it("a misspelt one names the nearest, with one code and with several", () => {
    const options = { installation_categry: 3 } as object;
    const one = () => study.compare("aci318-19", { options });
    expect(one).toThrow(UnknownNameError);
    expect(one).toThrow("did you mean installation_category");
    expect(() => study.compare(["aci318-19", "en1992-4-2018"], { options })).toThrow(
      UnknownNameError,
    );
  });
});
