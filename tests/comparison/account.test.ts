import { describe, expect, it } from "vitest";
import {
  accountOf,
  compare,
  groupRatios,
  notJudgedByGroup,
  onePerTest,
  type RowAccount,
} from "../../kernel-lib/src/comparison";
import { TestTable } from "../../kernel-lib/src/dataset";
import { generateDemonstration } from "../../kernel-lib/src/demonstration";
import { CODES, code } from "../../kernel-lib/src/provisions";
import { createRandom } from "../../kernel-lib/src/statistics";
import { randomRows, table } from "../provisions/specimens";

const sum = (parts: readonly { readonly n: number }[]): number =>
  parts.reduce((total, { n }) => total + n, 0);
const judgedRows = ({ judged }: RowAccount): number =>
  judged.reduce((total, { failures, lowerBounds }) => total + failures + lowerBounds, 0);
const parts = (account: RowAccount): number =>
  sum(account.rejected) +
  sum(account.excluded) +
  sum(account.notJudged) +
  judgedRows(account) +
  sum(account.pooled) +
  account.otherModes;

const random = createRandom("account of rows");
const MODES = [
  "concrete_breakout",
  "bond",
  "splitting",
  "bar_rupture",
  "rupture_at_grip",
  "yield",
  "concrete_edge_breakout",
  "pryout",
  "bar_shear",
  "stopped",
  "unknown",
] as const;
const mixed = table(
  ...randomRows(7, 400).map((row) => ({
    ...row,
    peak_load_kN: 20 + 80 * random.uniform(),
    failure_mode: random.choice(MODES),
    excluded: random.uniform() < 0.05 ? random.choice(["leaned", "soft adhesive"]) : null,
    setup: random.choice([row.setup!, "hinged_beam" as const, "splice" as const]),
  })),
);

describe("the account of rows", () => {
  it("adds up to the rows read, over every code, level, way, rule and scope, each row once", () => {
    const seen = new Set<string>();
    for (const one of CODES) {
      for (const level of ["expected", "nominal", "design"] as const) {
        const settings = {
          level,
          way: random.choice(["observed mode", "governing mode"] as const),
          lowerBounds: random.choice(["stopped early", "used"] as const),
          scope: random.choice(["judged", "all"] as const),
        };
        const comparison = compare(mixed, one, settings);
        const account = accountOf(comparison, [{ reason: "no load", n: 3 }]);
        expect(account.read).toBe(403);
        expect(parts(account), `${one.id} ${JSON.stringify(settings)}`).toBe(403);
        expect(account.otherModes).toBe(0);
        expect(judgedRows(account) + sum(account.pooled)).toBe(
          new Set(comparison.evidence.map(({ row }) => row)).size,
        );
        expect(sum(account.observed)).toBe(400);
        expect(account.observed.map(({ failureMode }) => failureMode)).toEqual([...MODES].sort());
        for (const { status } of account.notJudged) seen.add(status);
        // A pair is judged or not, never both.
        const refused = new Set(
          comparison.notJudged.map(({ row, column }) => `${String(row)} ${String(column)}`),
        );
        if (settings.scope === "judged")
          expect(
            comparison.evidence.filter(({ row, column }) =>
              refused.has(`${String(row)} ${String(column)}`),
            ),
          ).toEqual([]);
      }
    }
    expect([...seen].sort()).toEqual([
      "capacity of another mode",
      "input missing",
      "input substituted",
      "outside stated range",
      "set-up does not test this",
    ]);
  });

  it("of the demonstration has the failures of every mode, those without a provision too", () => {
    const tests = TestTable.fromRows(generateDemonstration(2026).tests);
    const account = accountOf(compare(tests, code("aci318-19")));
    expect(parts(account)).toBe(1412);
    expect(sum(account.excluded)).toBe(8);
    // The card's own count of observed modes (datasets/demo/README.md).
    expect(
      Object.fromEntries(account.observed.map(({ failureMode, n }) => [failureMode, n])),
    ).toEqual({
      bond: 718,
      concrete_edge_breakout: 213,
      concrete_breakout: 161,
      bar_shear: 108,
      pryout: 79,
      splitting: 59,
      rupture_at_grip: 34,
      bar_rupture: 28,
      stopped: 12,
    });
    expect(account.observed.find(({ failureMode }) => failureMode === "splitting")?.judged).toBe(0);
  });

  it("says what was left to other modes where evidence was taken out afterwards", () => {
    const whole = compare(mixed, code("aci318-19"));
    const account = accountOf({
      ...whole,
      evidence: whole.evidence.filter(({ mode }) => mode === "bond"),
    });
    expect(account.otherModes).toBeGreaterThan(0);
    expect(parts(account)).toBe(400);
  });

  it("counts what was assumed by name beside the rest", () => {
    const tests = table(
      {
        bar_diameter_mm: 16,
        embedment_mm: 128,
        failure_mode: "concrete_breakout",
        concrete_strength_basis: "cylinder_assumed",
      },
      { bar_diameter_mm: 16, embedment_mm: 128, failure_mode: "concrete_breakout" },
    );
    expect(accountOf(compare(tests, code("aci318-19"))).assumed).toContainEqual({
      reason: "concrete strength treated as a cylinder strength (cylinder_assumed)",
      n: 1,
    });
  });
});

describe("groups without the mode", () => {
  const bar = { bar_diameter_mm: 16, embedment_mm: 100, cracked: "no" } as const;
  const settings = {
    level: "expected",
    lowerBounds: "stopped early",
    options: { mean_bond_stress: 10 },
  } as const;

  it("count a test once, in the mode it failed in", () => {
    const comparison = compare(
      table(...[60, 62, 64, 66, 68].map((peak_load_kN) => ({ ...bar, peak_load_kN }))),
      code("uniform-bond-1998"),
      settings,
    );
    expect(comparison.evidence).toHaveLength(10);
    expect(onePerTest(comparison).map(({ mode, bound }) => [mode, bound])).toEqual(
      Array.from({ length: 5 }, () => ["bond", false]),
    );
    expect(groupRatios(comparison, ["bar_material"])[0]).toMatchObject({ n: 5, lowerBounds: 0 });
    expect(groupRatios(comparison, ["bar_material"])[0]?.k).not.toBeNull();
  });

  it("count a test that failed in no mode of the code as a lower bound of the least capacity", () => {
    // 10 MPa x pi x 16 mm x 100 mm = 50.3 kN is less than the cone of 35 sqrt(f'c) h_ef^1.5 and
    // than rupture.
    const [one, ...others] = onePerTest(
      compare(
        table({ ...bar, failure_mode: "rupture_at_grip", peak_load_kN: 45 }),
        code("uniform-bond-1998"),
        settings,
      ),
    );
    expect(others).toEqual([]);
    expect(one).toMatchObject({ mode: "bond", bound: true });
    expect(one?.capacity).toBeCloseTo(16 * Math.PI, 9);
  });

  it("by the mode observed keep splitting and pull-out apart, which one provision predicts", () => {
    const beam = {
      ...bar,
      installation: "cast_in",
      setup: "hinged_beam",
      cover_mm: 40,
      embedment_mm: 320,
    } as const;
    const tests = table(
      ...Array.from({ length: 10 }, (_, k) => ({
        ...beam,
        failure_mode: k < 6 ? ("splitting" as const) : ("bond" as const),
        peak_load_kN: 90 + k,
      })),
    );
    const comparison = compare(tests, code("aci440.1r-15"));
    expect(
      groupRatios(comparison, ["mode"])
        .filter(({ by }) => by["mode"] === "bond")
        .map(({ n }) => n),
    ).toEqual([10]);
    expect(
      groupRatios(comparison, ["failure_mode"]).map(({ by, n, lowerBounds }) => [
        by["failure_mode"],
        n,
        lowerBounds,
      ]),
    ).toEqual([
      ["bond", 4, 0],
      ["splitting", 6, 0],
    ]);
  });

  it("say which tests of a group are not judged", () => {
    const comparison = compare(
      table(
        { ...bar, bar_size: "16" },
        { ...bar, bar_size: "16", setup: "confined_tension" },
        { ...bar, bar_size: "19", embedment_mm: 48 },
      ),
      code("uniform-bond-1998"),
      settings,
    );
    expect(notJudgedByGroup(comparison, ["mode", "bar_size"]).get('["bond","16"]')).toEqual([
      {
        status: "set-up does not test this",
        reason: expect.stringContaining("confined tension") as string,
        n: 1,
      },
    ]);
    expect(notJudgedByGroup(comparison, ["bar_size"]).get('["19"]')).toEqual([
      {
        status: "outside stated range",
        reason: expect.stringContaining("diameters") as string,
        n: 1,
      },
    ]);
    expect(notJudgedByGroup(comparison, ["bar_size"]).has('["25"]')).toBe(false);
  });
});
