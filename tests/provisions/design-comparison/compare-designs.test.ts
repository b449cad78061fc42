import { describe, expect, it } from "vitest";
import {
  code,
  compareDesigns,
  designedBar,
  designFindings,
  developmentLengthRule,
  developmentTrace,
  factorShares,
  predict,
  type DesignComparison,
  type DesignedBar,
  type DesignSettings,
} from "../../../kernel-lib/src/provisions";
import { createRandom } from "../../../kernel-lib/src/statistics";

const range = Array.from({ length: 22 }, (_, k) => 60 + 20 * k);
const compared = (
  second: string,
  settings: Partial<DesignSettings> = {},
  bar: DesignedBar = {},
  first = "aci318-19",
): DesignComparison =>
  compareDesigns([code(first), code(second)], designedBar({ bond: 7, ...bar }), 0, {
    embedments: range,
    at: 160,
    ...settings,
  });
const product = ({ factors }: DesignComparison): number =>
  factors.reduce((all, { factor }) => all * factor, 1);
const factorsOf = ({ factors }: DesignComparison): Record<string, number> =>
  Object.fromEntries(factors.map(({ id, factor }) => [id, factor]));

describe("one bar by ACI 318-19 and ACI 440.1R-15", () => {
  // design_factors.py beside this file, written from the clauses, which changes the assumptions in
  // all 720 orders.
  const here = compared("aci440.1r-15", { options: { C_E: 0.7 }, load_N: 40e3 });

  it("gives both design capacities and the factors between them", () => {
    expect(here.families.map(({ at }) => at.design.capacity)).toEqual([
      expect.closeTo(30812.3422168, 6),
      expect.closeTo(30987.1394186, 6),
    ]);
    expect(here.ratio).toBeCloseTo(1.00567296054886, 12);
    const expected = {
      bond_model: 0.81695780395,
      short_embedment: 0.83402148208,
      bar_cap: 1,
      environment: 1,
      concrete: 1.0619702186,
      reduction: 1.38984885299,
    };
    for (const [id, factor] of Object.entries(expected))
      expect(factorsOf(here)[id], id).toBeCloseTo(factor, 9);
    const deep = compared("aci440.1r-15", { options: { C_E: 0.7 }, at: 400 });
    expect(deep.ratio).toBeCloseTo(0.8336032980734901, 12);
    expect(factorsOf(deep)).toMatchObject({
      bond_model: expect.closeTo(0.73336335396, 9) as number,
      environment: expect.closeTo(0.91297865862, 9) as number,
      reduction: expect.closeTo(1.24502936256, 9) as number,
      concrete: expect.closeTo(1, 12) as number,
    });
  });

  it("finds where the curves cross, the mode changes, and the embedment of a load", () => {
    expect(here.crossings.design.map(({ embedment }) => embedment)).toEqual([
      expect.closeTo(321.639382201, 5),
    ]);
    expect(here.crossings.nominal).toEqual([]);
    expect(here.families.map(({ carriesLoad }) => carriesLoad)).toEqual([
      expect.closeTo(207.708974377, 5),
      expect.closeTo(206.537296442, 5),
    ]);
    const [, guide] = here.families;
    expect(guide.modeChanges).toEqual([
      {
        embedment: expect.closeTo(345.0414799, 5) as number,
        capacity: expect.closeTo(64213.175233, 3) as number,
        mode: "bar rupture (6.2)",
      },
    ]);
  });

  it("develops the bar at the code's own development length", () => {
    expect(here.families.map(({ developsBar }) => developsBar)).toEqual([
      {
        nominal: expect.closeTo(562.9528766, 4) as number,
        design: expect.closeTo(562.9528766, 4) as number,
      },
      {
        nominal: expect.closeTo(886.0084324, 4) as number,
        design: expect.closeTo(345.0414799, 4) as number,
      },
    ]);
    const { length_mm } = developmentTrace(
      developmentLengthRule("aci440.1r-15"),
      designedBar(),
      0,
      0.7 * 840,
    );
    expect(here.families[1].developsBar.nominal).toBeCloseTo(length_mm ?? NaN, 4);
  });

  it("says that equal capacities may come from unequal assumptions, and which two matter for provisions", () => {
    const [first = "", second = "", third = ""] = designFindings(here);
    expect(first).toMatch(
      /30\.8 kN by aci318-19 and 31\.0 kN by aci440\.1r-15, a ratio of 1\.01.*offset each other: strength reduction 1\.39/,
    );
    expect(second).toMatch(/cross at 322 mm.*208 mm.*207 mm/);
    expect(third).toMatch(/strength reduction factor.*bond strength of FRP bars/);
  });

  it("takes a reduction for bond where the guide states none", () => {
    const reduced = compared("aci440.1r-15", { unstatedReduction: { bond: 0.55 } });
    const plain = compared("aci440.1r-15");
    expect(
      reduced.families[1].at.design.capacity / plain.families[1].at.design.capacity,
    ).toBeCloseTo(0.55, 12);
    expect(plain.families[1].withoutReduction).toHaveLength(1);
  });
});

describe("laws of the split", () => {
  const random = createRandom(14);
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const guides = [
    "aci440.1r-15",
    "aci440.11-22",
    "csa-s806-12",
    "csa-s6-14",
    "aashto-gfrp2-2018",
    "jsce-1997",
  ];

  it.each(
    guides.flatMap((guide) =>
      ["aci318-19", "en1992-4-2018"].map((first) => [first, guide] as const),
    ),
  )(
    "%s and %s: the factors multiply to the ratio, from one code's capacity to the other's",
    (first, guide) => {
      for (let k = 0; k < 2; k++) {
        const diameter = between(9, 26);
        const bar = {
          surface: "sand_coated" as const,
          diameter,
          strength: between(600, 1200),
          concrete: between(20, 60),
          cracked: random.uniform() < 0.5,
          edge: between(diameter, 500),
          bond: between(4, 12),
          uncrackedBond: between(8, 16),
        };
        const at = diameter * between(4, 40);
        const options = {
          ...(Object.hasOwn(code(guide).options, "C_E") ? { C_E: between(0.6, 0.95) } : {}),
          ...(first === "en1992-4-2018" ? { gamma_Ms_frp: 1.6 } : {}),
        };
        const found = compared(guide, { at, options, embedments: [at, 2 * at] }, bar, first);
        expect(product(found) / found.ratio, `${guide} ${at}`).toBeCloseTo(1, 12);
        for (const [c, id] of [first, guide].entries()) {
          const design = Object.fromEntries(
            Object.entries(options).filter(([name]) => Object.hasOwn(code(id).options, name)),
          );
          const row = designedBar(bar);
          row.numbers("embedment_mm")[0] = at;
          const least = (level: "nominal" | "design"): number =>
            Math.min(
              ...predict(code(id), row, { level, options: design })
                .columns.filter(
                  ({ provision, capacity }) => provision.action === "tension" && capacity[0]! > 0,
                )
                .map(({ capacity }) => capacity[0]!),
            );
          expect(found.families[c]!.at.nominal.capacity / least("nominal"), id).toBeCloseTo(1, 12);
          if (c === 0)
            expect(found.families[c].at.design.capacity / least("design"), id).toBeCloseTo(1, 12);
        }
      }
    },
  );

  it("gives factors of 1 where both codes are the same", () => {
    const same = compared("aci318-19m");
    expect(Math.abs(Math.log(same.ratio))).toBeLessThan(0.04);
    expect(factorsOf(same)["reduction"]).toBeCloseTo(1, 12);
    const [onlyBond] = factorShares(1, ([on]) => (on ? 3 : 2));
    expect(onlyBond).toEqual({ factor: expect.closeTo(1.5, 14) as number, first: 1.5, last: 1.5 });
  });

  it("shares a joint effect evenly and leaves a product as it is", () => {
    expect(
      factorShares(3, ([a, b, c]) => (a ? 2 : 1) * (b ? 0.7 : 1) * (c ? 5 : 1)).map(
        ({ factor }) => factor,
      ),
    ).toEqual([2, 0.7, 5].map((one) => expect.closeTo(one, 12) as number));
    // The lesser of 6 and 8, each lowered to 2 and 3: by hand ln f = half of each of both orders.
    const [a, b] = factorShares(2, ([x, y]) => Math.min(x ? 2 : 6, y ? 3 : 8));
    expect([a?.factor, b?.factor]).toEqual([
      expect.closeTo(Math.sqrt((2 / 6) * (2 / 3)), 12),
      expect.closeTo(Math.sqrt((3 / 6) * (2 / 2)), 12),
    ]);
    expect(() => factorShares(1, () => 0)).toThrow(RangeError);
  });
});

describe("what cannot be compared", () => {
  it("is refused with its reason", () => {
    expect(() => compared("aci440.1r-15", {}, { material: "steel", yieldStrength: 500 })).toThrow(
      /aci440\.1r-15 gives no design capacity at 160 mm/,
    );
    expect(() => compared("aci440.1r-15", { embedments: [100, 80] })).toThrow(/that rise/);
  });

  it("is named where a part of a code gives no value", () => {
    const without = compared("aci440.1r-15", {}, {}, "en1992-4-2018");
    expect(without.families[0].unjudged.join()).toMatch(
      /Steel failure in tension, design: needs option gamma_Ms_frp/,
    );
  });
});
