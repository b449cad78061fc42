import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import {
  code,
  CODES,
  concreteInteraction,
  governing,
  governingSentence,
  INSTALLATION_UNCOUNTED,
  installationWords,
  interactionAt,
  interactionRule,
  interactionTrace,
  powerInteraction,
  predict,
  resultantAt,
  showTrace,
  steelInteraction,
  traceToJson,
  trilinearInteraction,
  type InteractionEquation,
} from "../../kernel-lib/src/provisions";
import { createRandom } from "../../kernel-lib/src/statistics";
import { codeCard } from "../../kernel-lib/src/tables";
import { randomRows, table } from "./specimens";
import { BOTH } from "./both-loads";

const equation = (id: string, form: number, which: number): InteractionEquation =>
  interactionRule(code(id), { options: { interaction_form: form } })!.equations[which]!;

describe("the resultant of tension and shear along a proportional load path", () => {
  // Recomputed in Python: N = pi*16*128*10, V = pi/4*16**2*150, a = radians(30); 1.2/(cos(a)/N +
  // sin(a)/V) and ((cos(a)/N)**(5/3) + (sin(a)/V)**(5/3))**-.6.
  it.each([
    [0, "17.8", 39_948.30952899903],
    [1, "R17.8", 43_769.6422786398],
  ])("ACI 318-19, form %s, from the governing bond and bar shear", (form, clause, expected) => {
    const prediction = predict(code("aci318-19"), table(BOTH), {
      options: { interaction_form: form },
    });
    const { capacity, governing: part } = interactionAt(prediction, 0)!;
    expect(capacity / expected).toBeCloseTo(1, 12);
    expect(
      [part!.tension, part!.shear].map((column) => prediction.columns[column]?.provision.id),
    ).toEqual(["aci318-19/17.6.5", "aci318-19/frp-transverse-shear"]);
    expect(part!.equation.clause).toBe(clause);
  });

  // Python: S = pi/4*16**2*800; (cos(a)**2/S**2 + sin(a)**2/V**2)**-.5 = 57369.09; bond 64339.8
  // with pryout 2 * 64339.8: ((cos(a)/64339.8)**1.5 + (sin(a)/128679.6)**1.5)**(-2/3) = 67484.3.
  it("EN 1992-4 takes steel apart and the lower of both", () => {
    const found = interactionAt(predict(code("en1992-4-2018"), table(BOTH)), 0)!;
    expect(found.parts.map(({ resultant }) => Math.round(resultant))).toEqual([57_369, 67_484]);
    expect([found.governing!.equation.of, found.capacity]).toEqual([
      "steel",
      found.parts[0]!.resultant,
    ]);
  });

  it("EN 1992-4 without a steel capacity in shear checks the other failures and says so", () => {
    const found = interactionAt(
      predict(
        code("en1992-4-2018"),
        table({ ...BOTH, bar_shear_strength_MPa: null, bar_shear_strength_specified_MPa: null }),
      ),
      0,
    )!;
    expect([Math.round(found.capacity), found.unchecked]).toEqual([
      67_484,
      ["Table 7.3 (steel) not checked: no capacity in shear"],
    ]);
  });

  it("lies on the limit of the edition's own check, for any capacities and angle", () => {
    const random = createRandom(17);
    for (let k = 0; k < 500; k++) {
      const [tension, shear, angle] = [
        10 + 90 * random.uniform(),
        10 + 90 * random.uniform(),
        90 * random.uniform(),
      ];
      const shares = (of: InteractionEquation): [number, number] => {
        const resultant = resultantAt(of, tension, shear, angle);
        return [
          (resultant * Math.cos((angle * Math.PI) / 180)) / tension,
          (resultant * Math.sin((angle * Math.PI) / 180)) / shear,
        ];
      };
      for (const [found, of] of [
        [trilinearInteraction(...shares(equation("aci318-19", 0, 0))), "17.8"],
        [powerInteraction(...shares(equation("aci318-19", 1, 0))), "R17.8"],
        [steelInteraction(...shares(equation("en1992-4-2018", 0, 0))), "steel"],
        [concreteInteraction(...shares(equation("en1992-4-2018", 0, 1))), "power"],
      ] as const)
        expect(found.value / found.limit, `${of} ${tension} ${shear} ${angle}`).toBeCloseTo(1, 12);
      const [n, v] = shares(equation("en1992-4-2018", 1, 1));
      expect(Math.max(n, v, (n + v) / 1.2)).toBeCloseTo(1, 12);
    }
  });

  it("never falls with a capacity, and ends on the capacity of one action at either end", () => {
    for (const of of [
      equation("aci318-19", 0, 0),
      equation("aci318-19", 1, 0),
      equation("en1992-4-2018", 0, 0),
      equation("en1992-4-2018", 0, 1),
    ]) {
      for (const angle of [5, 20, 40, 60, 85]) {
        expect(resultantAt(of, 66, 40, angle)).toBeGreaterThanOrEqual(
          resultantAt(of, 60, 40, angle),
        );
        expect(resultantAt(of, 60, 44, angle)).toBeGreaterThanOrEqual(
          resultantAt(of, 60, 40, angle),
        );
        expect(resultantAt(of, 120, 80, angle)).toBeCloseTo(2 * resultantAt(of, 60, 40, angle), 10);
      }
      expect(resultantAt(of, 60, 40, 1e-6)).toBeCloseTo(60, 4);
      expect(resultantAt(of, 60, 40, 90 - 1e-6)).toBeCloseTo(40, 4);
    }
  });
});

describe("its hand calculation", () => {
  it.each(["aci318-19", "aci318-19m", "en1992-4-2018"])(
    "%s ends on the very bits of the capacity",
    (id) => {
      const prediction = predict(code(id), table(BOTH));
      const traced = interactionTrace(prediction, 0)!;
      expect(traced.capacity_N).toBe(interactionAt(prediction, 0)!.capacity);
      const last = traceToJson(traced).at(-1)!;
      expect([last.symbol, (last.value! * code(id).system.inSi.force) / traced.capacity_N]).toEqual(
        ["P_n", expect.closeTo(1, 12)],
      );
      const text = showTrace(traced).toText();
      for (const part of [
        "angle of the load from the bar axis",
        "lowest capacity in tension",
        "lowest capacity in shear",
        "P_n",
      ])
        expect(text).toContain(part);
    },
  );

  it("and the governing sentence name what is missing", () => {
    const sentence = (row: Partial<TestRowInput>, id = "aci318-19"): string =>
      governingSentence(predict(code(id), table({ ...BOTH, ...row })), 0);
    expect(sentence({})).toMatch(
      /^Tension and shear at 30° from the bar axis, 17\.8, straight lines: resultant .* \(39\.9483 kN\), from tension .*17\.6\.5, bond.* and shear .*bar shear/,
    );
    expect(sentence({ load_angle_deg: null })).toMatch(/load_angle_deg is blank/);
    expect(sentence({}, "aci440.1r-15")).toBe(
      "aci440.1r-15 states no interaction of tension and shear.",
    );
    expect(
      sentence({
        concrete_strength_basis: "unknown",
        bar_shear_strength_MPa: null,
        bar_shear_strength_specified_MPa: null,
      }),
    ).toMatch(/no capacity in shear/);
  });
});

describe("rows with one load", () => {
  it("keep every bit beside rows with both, and have no resultant", () => {
    const rows = randomRows(31, 60);
    const mixed = rows.flatMap((row) => [
      row,
      {
        ...row,
        action: "tension_and_shear" as const,
        setup: "combined_loading" as const,
        load_angle_deg: 40,
      },
    ]);
    for (const id of ["aci318-19", "en1992-4-2018", "ccd-1995"]) {
      const [alone, beside] = [
        predict(code(id), table(...rows)),
        predict(code(id), table(...mixed)),
      ];
      alone.columns.forEach(({ capacity, flags }, k) => {
        expect(rows.map((_, i) => beside.columns[k]!.capacity[2 * i])).toEqual([...capacity]);
        expect(rows.map((_, i) => beside.columns[k]!.flags[2 * i])).toEqual([...flags]);
      });
      const [least, found] = [governing(alone), governing(beside)];
      expect(rows.map((_, i) => found.column[2 * i])).toEqual([...least.column]);
      expect(rows.map((_, i) => found.capacity[2 * i])).toEqual([...least.capacity]);
      // A test with both loads is governed by no single capacity.
      expect(rows.every((_, i) => found.column[2 * i + 1] === -1)).toBe(true);
      expect(rows.every((_, i) => interactionAt(beside, 2 * i) === null)).toBe(true);
      expect(rows.some((_, i) => (interactionAt(beside, 2 * i + 1)?.capacity ?? NaN) > 0)).toBe(
        id !== "ccd-1995",
      );
    }
  });
});

describe("cards", () => {
  it("say of every code what installation and temperature change", () => {
    for (const one of CODES)
      expect(codeCard(one)).toContain("Installation conditions and temperature");
    expect(installationWords(code("aci318-19"))).toContain("installation_category");
    expect(installationWords(code("ccd-1995"))).toBe(INSTALLATION_UNCOUNTED);
    expect(installationWords(code("aci440.1r-15"))).toMatch(/cast-in/);
    for (const id of ["aci318-19", "en1992-4-2018"])
      expect(codeCard(code(id))).toMatch(/option interaction\\?_form (applies|selects)/i);
  });
});
