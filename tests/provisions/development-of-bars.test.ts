import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import {
  bendStrength,
  code,
  DEVELOPMENT_LENGTHS,
  developmentLength,
  developmentLengthRule,
  developmentTrace,
  handCalculationText,
  predict,
  reasonsAt,
  type DevelopmentCase,
} from "../../kernel-lib/src/provisions";
import {
  DEVELOPED as RECOMPUTED,
  EMBEDDED_FRP as FRP,
  EMBEDDED_STEEL as STEEL,
} from "./recomputed/older";
import { capacity, column, inch, psi, table } from "./specimens";

type Row = Partial<TestRowInput>;

/** The same bar as asked for by the development lengths. */
const asked = (row: Row, f_required: number): DevelopmentCase => ({
  f_required,
  d_a: row.bar_diameter_mm ?? NaN,
  A_b: row.bar_area_mm2 ?? NaN,
  f_c: row.concrete_strength_MPa ?? NaN,
  c_cover: row.cover_mm ?? NaN,
  s_clear: row.bar_spacing_mm ?? Infinity,
  top_cast: row.casting_position === "top" ? 1 : 0,
  steel: row.bar_material === "steel" ? 1 : 0,
  gfrp: row.bar_material === "gfrp" ? 1 : 0,
  frp: row.bar_material === "gfrp" ? 1 : 0,
  ...(row.bar_surface ? { [row.bar_surface]: 1 } : {}),
});

const codeOf = (id: string): ReturnType<typeof code> => code(id.slice(0, id.indexOf("/")));

describe.each(RECOMPUTED)("%s recomputed", (provision, length, level, rows, forces, lengths) => {
  it.each(
    rows.map((row, i) => [["A", "B", "C"][i] ?? "", row, forces[i] ?? NaN, lengths[i]] as const),
  )("case %s", (_, row, force, expected) => {
    // development.py evaluated the equation below 20 diameters as well.
    const options = provision.startsWith("aci440.1r-15") ? { extrapolate_below_20_d: 1 } : {};
    expect(
      capacity(codeOf(provision), provision, row, { level, options }) / 1000 / force,
    ).toBeCloseTo(1, 9);
    if (expected !== undefined)
      expect(
        developmentLength(developmentLengthRule(length), asked(row, 400)).length_mm / expected,
      ).toBeCloseTo(1, 8);
  });
});

describe("the two directions are inverses", () => {
  const noReduction: Readonly<Record<string, Readonly<Record<string, number>>>> = {
    "jsce-1997": { gamma_c: 1 },
    "en1992-1-1-2004": { gamma_c: 1 },
    "fib-mc2010": { gamma_cb: 1 },
    "aci318-19": { steel_grade: 100 },
  };
  it.each(RECOMPUTED.filter(([, length]) => length !== ""))(
    "%s",
    (provision, length, level, rows) => {
      const rule = developmentLengthRule(length);
      const options = noReduction[rule.code.id] ?? {};
      let compared = 0;
      for (const row of rows) {
        for (const embedment_mm of [520, 700, 1100]) {
          const stress =
            capacity(
              rule.code,
              provision,
              { ...row, embedment_mm, bar_strength_MPa: 1e5 },
              { level, options },
            ) / (row.bar_area_mm2 ?? NaN);
          // Steel's force is capped by yield, and short lengths by the least length; those cannot
          // come back.
          const area = (Math.PI / 4) * (row.bar_diameter_mm ?? NaN) ** 2;
          const perimeterStress = ["en1992-1-1-2004/8.4", "fib-mc2010/6.1.3"].includes(provision)
            ? (stress * (row.bar_area_mm2 ?? NaN)) / area
            : stress;
          if (provision === "aci318-19/25.4.2" && perimeterStress > 689) continue;
          compared += 1;
          expect(
            developmentLength(rule, asked(row, perimeterStress), options).length_mm / embedment_mm,
          ).toBeCloseTo(1, 9);
        }
      }
      expect(compared).toBeGreaterThanOrEqual(3);
    },
  );
});

describe("strength of an FRP bend", () => {
  it("needs a radius and a strength", () => {
    expect(() => bendStrength(0, 64)).toThrow(RangeError);
    expect(() => bendStrength(3, NaN)).toThrow(RangeError);
  });
});

describe("simplified length of ACI 318-19, 25.4.2.3", () => {
  const diameters = (d: number, more: Partial<DevelopmentCase> = {}): number =>
    developmentLength(developmentLengthRule("aci318-19/25.4.2.3"), {
      f_required: psi(60_000),
      d_a: inch(d),
      f_c: psi(4000),
      c_cover: inch(2),
      steel: 1,
      ...more,
    }).length_mm / inch(d);
  it("is 1.3 times as long for a top bar", () => {
    expect(diameters(0.875, { top_cast: 1 }) / diameters(0.875)).toBeCloseTo(1.3, 12);
  });
});

describe("development lengths say what they miss", () => {
  it("a missing value, a bar not covered, a limit not kept, an unknown option, an unknown id", () => {
    const rule = developmentLengthRule("csa-s806-12");
    const good: DevelopmentCase = {
      f_required: 500,
      d_a: 16,
      f_c: 30,
      c_cover: 40,
      frp: 1,
      gfrp: 1,
      sand_coated: 1,
    };
    expect(developmentLength(rule, good).reasons).toEqual([]);
    expect(developmentLength(rule, { ...good, c_cover: NaN })).toMatchObject({
      length_mm: NaN,
      reasons: [expect.stringContaining("c_cover")],
    });
    expect(developmentLength(rule, { ...good, sand_coated: 0, plain: 1 })).toMatchObject({
      length_mm: NaN,
      reasons: [expect.stringContaining("surface")],
    });
    expect(developmentLength(rule, { ...good, post_installed: 1 }).reasons).toEqual([
      expect.stringContaining("cast-in"),
    ]);
    expect(developmentLength(rule, { ...good, gfrp: 0, bfrp: 1 }).length_mm).toBeNaN();
    expect(
      developmentLength(rule, { ...good, gfrp: 0, bfrp: 1 }, { k_4_basalt: 1 }).length_mm,
    ).toBe(developmentLength(rule, good).length_mm);
    expect(() => developmentLength(rule, good, { k_9: 1 })).toThrow(/offers no option "k_9"/);
    expect(() => developmentLengthRule("aci318-19")).toThrow(/aci318-19m\/25.4.2.3/);
    expect(() => developmentLengthRule("fib-mc2010")).toThrow(/expected one of/);
  });

  it("every rule traces to a length above zero in the edition's unit", () => {
    for (const { code: of, definition } of DEVELOPMENT_LENGTHS) {
      const frp =
        !["aci318-19", "aci318-19m"].includes(of.id) &&
        !of.id.startsWith("en") &&
        !of.id.startsWith("fib");
      const result = developmentLength(
        { code: of, definition },
        {
          f_required: 400,
          d_a: 16,
          f_c: 30,
          c_cover: 40,
          ...(frp ? { frp: 1, gfrp: 1, sand_coated: 1 } : { steel: 1 }),
        },
      );
      const last = result.steps.find(({ symbol }) => symbol === definition.length);
      expect(result.length_mm, definition.id).toBeGreaterThan(0);
      expect((last?.value ?? NaN) * of.system.inSi.length, definition.id).toBe(result.length_mm);
      expect(last?.unit).toBe(of.system.unit.length);
    }
  });
});

describe("25.4.2 and bars bonded into drilled holes", () => {
  const cast: Row = STEEL[0] ?? {};
  const drilled: Row = { ...cast, installation: "post_installed" };
  const at = (row: Row, options = {}): number =>
    capacity(code("aci318-19"), "aci318-19/25.4.2", row, { options });

  it("is for cast-in bars, and computes drilled-in ones only when asked, with a caution", () => {
    expect(at(cast)).toBeGreaterThan(0);
    expect(at(drilled)).toBeNaN();
    expect(at(drilled, { drilled_in_for_comparison: 1 })).toBe(at(cast));
    const asked = predict(code("aci318-19"), table(drilled), {
      options: { drilled_in_for_comparison: 1 },
    });
    const clause = column(asked, "aci318-19/25.4.2");
    expect(reasonsAt(asked, clause, 0)).toEqual([
      expect.objectContaining({
        kind: "outside",
        says: expect.stringContaining("for comparison only and is not a capacity") as string,
      }),
    ]);
  });
});

describe("the hand calculation of a development length", () => {
  it("ends on the length of the call, for every rule", () => {
    let stated = 0;
    for (const rule of DEVELOPMENT_LENGTHS) {
      for (const row of [...FRP, ...STEEL]) {
        const shown = developmentTrace(rule, table(row), 0, 400);
        const called = developmentLength(rule, asked(row, 400)).length_mm;
        expect(shown.length_mm, rule.definition.id).toBe(called);
        if (Number.isNaN(called)) continue;
        stated += 1;
        expect(handCalculationText(shown)).toMatch(/\nLength: [\d.]+ (?:in\.|mm)/);
      }
    }
    expect(stated).toBe(3 * DEVELOPMENT_LENGTHS.length);
  });
});
