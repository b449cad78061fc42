import { describe, expect, it } from "vitest";
import {
  applyProposal,
  beforeAfterOf,
  FRP_MODES_ACI318,
  outsideLimits,
  readProposal,
  testedLimits,
  type Addition,
  type Proposal,
  type Restriction,
} from "../../kernel-lib/src/proposals";
import { code, CODES, predict, step, type Level } from "../../kernel-lib/src/provisions";
import { column, randomRows, table } from "../provisions/specimens";

const proposal = (changes: string, factor: string, where = "d_a > 0"): Proposal => ({
  id: "p1",
  title: "Trial",
  changes,
  symbol: "psi_trial",
  where,
  factor,
  says: "a trial factor",
  rationale: "r",
  derivation: "d",
  evidence: "e",
});
const tests = table(...randomRows(7, 300));

describe("applyProposal", () => {
  // A condition on inputs that are often blank must not matter where the factor is 1.
  it.each(CODES.map((one) => [one.id, one] as const))(
    "a factor of 1 changes no bit of any column of %s",
    (_, present) => {
      const levels = (["expected", "nominal", "design"] as Level[]).filter((level) =>
        present.provisions.some((one) => one.levels.includes(level)),
      );
      for (const { id } of present.provisions) {
        for (const factor of ["1", "1.0", "2 / 2"]) {
          const changed = applyProposal(present, proposal(id, factor, "d_0 > 10"));
          for (const level of levels) {
            const [before, after] = [
              predict(present, tests, { level }),
              predict(changed, tests, { level }),
            ];
            expect(after.columns.length).toBe(before.columns.length);
            before.columns.forEach(({ capacity, flags }, k) => {
              const other = after.columns[k];
              for (let i = 0; i < capacity.length; i++) {
                if (!Object.is(capacity[i], other?.capacity[i]) || flags[i] !== other?.flags[i])
                  expect.fail(`${id} row ${i}: ${capacity[i]} became ${other?.capacity[i]}`);
              }
            });
          }
        }
      }
    },
  );

  it("a factor multiplies the capacity where its condition holds and nowhere else", () => {
    const present = code("ccd-1995");
    const target = present.provisions[0]?.id ?? "";
    const changed = applyProposal(present, proposal(target, "0.5", "d_a > 0.6"));
    const [before, after] = [present, changed].map(
      (one) => column(predict(one, tests, { level: "expected" }), target).capacity,
    );
    const diameter = tests.numbers("bar_diameter_mm");
    let known = 0;
    before?.forEach((value, i) => {
      if (Number.isNaN(value)) return;
      known += 1;
      expect(after?.[i] ?? NaN).toBeCloseTo((diameter[i] ?? 0) / 25.4 > 0.6 ? value / 2 : value, 6);
    });
    expect(known).toBeGreaterThan(20);
  });

  it("a family changes together: edge breakout towards edge 1 and parallel to edges 2 and 4", () => {
    const present = code("aci318-19");
    const family = [
      "aci318-19/17.7.2",
      "aci318-19/17.7.2.1(c)-edge2",
      "aci318-19/17.7.2.1(c)-edge4",
    ];
    const whole: Proposal = {
      ...proposal("aci318-19/17.7.2", "0.5", "frp == 1"),
      alsoChanges: family.slice(1),
    };
    const [before, after] = [present, applyProposal(present, whole)].map((one) =>
      predict(one, tests, { level: "nominal" }),
    );
    const material = tests.texts("bar_material");
    for (const id of family) {
      const [old, now] = [column(before!, id).capacity, column(after!, id).capacity];
      let seen = 0;
      old.forEach((value, i) => {
        if (Number.isNaN(value)) return;
        seen += 1;
        expect(now[i]! / value).toBeCloseTo(material[i] === "steel" ? 1 : 0.5, 12);
      });
      expect(seen).toBeGreaterThan(20);
    }
    expect(FRP_MODES_ACI318["concrete_edge_breakout"]?.alsoChanges).toEqual(family.slice(1));
    expect(() => applyProposal(present, { ...whole, alsoChanges: ["aci318-19/99"] })).toThrow(
      'changes "aci318-19/99"',
    );
    expect(() => readProposal(JSON.stringify({ ...whole, alsoChanges: "aci318-19/99" }))).toThrow(
      "expected a list of further provisions",
    );
    expect(readProposal(JSON.stringify(whole))).toEqual(whole);
  });

  it("a restriction withholds the capacity, gives its words as the reason, and leaves the rest", () => {
    const present = code("ccd-1995");
    const target = present.provisions[0]?.id ?? "";
    const restriction: Restriction = {
      kind: "restriction",
      id: "p2",
      title: "Not for large bars",
      changes: target,
      where: "d_a > 0.6",
      says: "not permitted for bars above 0.6 in.",
      rationale: "r",
      evidence: "e",
    };
    const [before, after] = [present, applyProposal(present, restriction)].map(
      (one) => column(predict(one, tests, { level: "expected" }), target).capacity,
    );
    const diameter = tests.numbers("bar_diameter_mm");
    let withheld = 0;
    before?.forEach((value, i) => {
      if ((diameter[i] ?? 0) / 25.4 > 0.6) {
        expect(after?.[i]).toBeNaN();
        withheld += Number.isNaN(value) ? 0 : 1;
      } else expect(Object.is(after?.[i], value)).toBe(true);
    });
    expect(withheld).toBeGreaterThan(10);
  });

  it("adds a provision, and refuses one that is there, of another code or without its capacity", () => {
    const present = code("ccd-1995");
    const model = present.provisions[0];
    if (!model) throw new Error("no provision");
    const addition = (change: Partial<Addition["provision"]>): Addition => ({
      kind: "addition",
      id: "p3",
      title: "Bar shear",
      says: "shear strength of the bar",
      rationale: "r",
      evidence: "e",
      provision: {
        id: "ccd-1995/bar-shear",
        title: "Bar shear",
        action: "shear",
        modes: ["bar_shear"],
        confidence: "M",
        levels: ["expected"],
        limits: [],
        steps: [step("V_b", "0.5 * A_b * f_u", "force", "proposed", "half the tensile strength")],
        capacity: "V_b",
        ...change,
      },
    });
    const found = column(
      predict(
        applyProposal(present, addition({})),
        table({ action: "shear", setup: "direct_shear", bar_area_mm2: 200, bar_strength_MPa: 900 }),
        { level: "expected" },
      ),
      "ccd-1995/bar-shear",
    );
    expect(found.capacity[0]).toBeCloseTo(90_000, 6);
    expect(() => applyProposal(present, addition({ id: model.id }))).toThrow(
      "which ccd-1995 already has",
    );
    expect(() => applyProposal(present, addition({ id: "other/bar-shear" }))).toThrow(
      'begins with "ccd-1995/"',
    );
    expect(() => applyProposal(present, addition({ capacity: "V_x" }))).toThrow(
      '"V_x" is not a step',
    );
  });

  it("before and after: factor 1 leaves every group equal", () => {
    const present = code("ccd-1995");
    const broken = table(
      ...randomRows(7, 300).map((row) => ({
        ...row,
        failure_mode:
          row.action === "shear"
            ? ("concrete_edge_breakout" as const)
            : ("concrete_breakout" as const),
      })),
    );
    const found = beforeAfterOf(
      broken,
      present,
      [proposal(present.provisions[0]?.id ?? "", "1")],
      ["mode"],
      { level: "expected" },
    );
    expect(found.groups.length).toBeGreaterThan(0);
    for (const { before, after } of found.groups) expect(after).toEqual(before);
    expect(found.withdrawn).toEqual([]);
  });
});

describe("limits of validity", () => {
  const limits = testedLimits(tests, [0, 1, 2, 3, 4, 5], ["bar_diameter_mm"]);
  it("are the range of the rows named", () => {
    const values = [0, 1, 2, 3, 4, 5].map((row) => tests.numbers("bar_diameter_mm")[row] ?? NaN);
    expect(limits).toEqual([
      { column: "bar_diameter_mm", lower: Math.min(...values), upper: Math.max(...values) },
    ]);
  });
  it("say how far outside a design point lies", () => {
    const range = [{ column: "bar_diameter_mm", lower: 10, upper: 20 }];
    expect(outsideLimits(range, { bar_diameter_mm: 25 })).toMatchObject([
      {
        side: "above",
        distance: 5,
        share: 0.25,
        says: "bar_diameter_mm 25 is 5 (25 %) above the tested range 10 to 20: the proposal is not supported by tests there",
      },
    ]);
    expect(outsideLimits(range, { bar_diameter_mm: 10 })).toEqual([]);
    expect(outsideLimits(range, { bar_diameter_mm: null })).toEqual([]);
  });
});

describe("readProposal", () => {
  it("reads what was written, a number as factor too", () => {
    const written = proposal("ccd-1995/x", "0.85");
    expect(readProposal(JSON.stringify(written))).toEqual(written);
    expect(readProposal(JSON.stringify({ ...written, factor: 0.85 }))).toEqual(written);
  });
  it("lists all that is wrong at once", () => {
    const wrong = {
      ...proposal("x", "0.8 *"),
      says: "",
      colour: 1,
      limits: [{ column: "a", lower: 2, upper: 1 }],
    };
    expect(() => readProposal(JSON.stringify(wrong))).toThrow(
      /colour is not known[\s\S]*factor is "0.8 \*"[\s\S]*says is ""[\s\S]*limits\[0\]/,
    );
    expect(() => readProposal("{")).toThrow("is not valid JSON");
    expect(() => readProposal("[]")).toThrow("is a list");
    expect(() => readProposal('{"kind":"other"}')).toThrow('kind is "other"');
  });
});
