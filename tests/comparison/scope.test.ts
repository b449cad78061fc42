import { describe, expect, it } from "vitest";
import { compare, type ComparisonSettings, type Status } from "../../kernel-lib/src/comparison";
import { TestTable, type TestRowInput } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { code } from "../../kernel-lib/src/provisions";
import { table } from "../provisions/specimens";
import { anchor, beam, SCOPE_FIXTURES } from "./scope-fixtures";

/** Status of the pair of a test and the mode it failed in. */
function statusOf(
  row: Partial<TestRowInput>,
  id: string,
  settings: ComparisonSettings = {},
): { status: Status; reason: string; value: string } {
  const { evidence, notJudged } = compare(table(row), code(id), settings);
  const judged = evidence.filter(({ bound }) => !bound).length;
  // A test that is not judged in the mode it failed in bounds no other mode either.
  if (judged === 0) expect(evidence).toEqual([]);
  return (
    (judged === 0 ? notJudged.find(({ bound }) => !bound) : undefined) ?? {
      status: "judged",
      reason: "",
      value: "",
    }
  );
}

describe("the status of a test and a provision, fixtures judged by hand from what each clause says of itself (from memory)", () => {
  it.each(SCOPE_FIXTURES)("%s", (_what, row, id, settings, status, reason) => {
    const found = statusOf(row, id, settings);
    expect([found.status, found.reason]).toEqual([status, expect.stringMatching(reason)]);
  });

  it("has the value of the row beside the limit", () => {
    expect(statusOf({ ...beam, embedment_mm: 80 }, "aci440.11-22").value).toContain(
      "embedment_mm = 80, bar_diameter_mm = 16",
    );
    expect(statusOf({ ...anchor, embedment_mm: 48 }, "aci318-19").value).toContain(
      "embedment_mm = 48, bar_diameter_mm = 16",
    );
  });

  it("is pooled with the others only on request, by the capacity that it has", () => {
    const pooled = compare(
      table({ ...beam, embedment_mm: 80, peak_load_kN: 40 }),
      code("aci440.11-22"),
      { scope: "all" },
    );
    const one = pooled.evidence.find(({ mode }) => mode === "bond");
    expect(one?.ratio).toBeCloseTo(
      40_000 / (pooled.prediction.columns[one?.column ?? -1]?.capacity[0] ?? NaN),
      12,
    );
    expect(pooled.notJudged.map(({ status }) => status)).toContain("outside stated range");
  });
});

describe("the demonstration, by its own column of layouts", () => {
  const tests = TestTable.fromRows(generateDemonstration(2026).tests);
  const { evidence, notJudged } = compare(tests, code("aci318-19"), { level: "nominal" });
  const layout = (row: number): unknown =>
    tests.row(row).extra["layout"] ??
    (tests.row(row) as unknown as Record<string, unknown>)["layout"];

  it("judges no bond specimen and no confined test by an anchor provision, and every bond failure of the others", () => {
    expect(
      evidence.filter(
        ({ row }) =>
          layout(row) === "bond_specimen" || tests.text(row, "setup") === "confined_tension",
      ),
    ).toEqual([]);
    const free = Array.from({ length: tests.length }, (_, row) => row).filter(
      (row) =>
        layout(row) !== "bond_specimen" &&
        tests.text(row, "setup") === "unconfined_tension" &&
        tests.text(row, "failure_mode") === "bond" &&
        !tests.text(row, "excluded"),
    );
    expect(
      evidence.filter(({ mode, bound }) => mode === "bond" && !bound).map(({ row }) => row),
    ).toEqual(free);
    expect(free.length).toBeGreaterThan(300);
    expect(new Set(notJudged.filter(({ bound }) => !bound).map(({ status }) => status))).toEqual(
      new Set(["set-up does not test this", "excluded"]),
    );
  });
});
