import { describe, expect, it } from "vitest";
import type { TestRowInput } from "../../kernel-lib/src/dataset";
import {
  ACI318_DETAIL_CHECKS,
  code,
  detailChecks,
  powerInteraction,
  Specimens,
  trilinearInteraction,
  type DetailVerdict,
} from "../../kernel-lib/src/provisions";
import { capacity, inch, table } from "./specimens";

const ACI = code("aci318-19");

describe("ACI 318-19 interaction, 17.8", () => {
  // Worked values stand in ../worked/rules.ts.
  it("names its clause, and holds no action above its own strength", () => {
    expect(
      [
        trilinearInteraction(1, 0.2),
        trilinearInteraction(0.2, 1),
        trilinearInteraction(0.7, 0.5),
      ].map(({ clause }) => clause),
    ).toEqual(["17.8.1", "17.8.2", "17.8.3"]);
    expect(trilinearInteraction(1.01, 0.1).holds).toBe(false);
    expect(trilinearInteraction(1.01, 0.25).holds).toBe(false);
  });

  it("the two forms agree on the axes; by the power form the ratios add up to 2^(2/5) = 1.32 at most", () => {
    expect(powerInteraction(1, 0).value).toBe(1);
    expect(powerInteraction(0, 1).holds).toBe(true);
    for (let n = 0; n <= 1; n += 0.01) {
      for (let v = 0; v <= 1; v += 0.01)
        if (powerInteraction(n, v).holds)
          expect(n + v, `${n} ${v}`).toBeLessThanOrEqual(2 ** 0.4 + 1e-12);
    }
    expect(() => powerInteraction(-0.1, 0)).toThrow(RangeError);
  });
});

describe("ACI 318-19 sustained tension, 17.5.2.2", () => {
  it("is 0.55 of the basic bond strength, and only for sustained tension", () => {
    // N_ba 11,781.0 lb: tau 1000 psi, d 0.625 in., h_ef 6 in., constructed anchor.
    expect(capacity(ACI, "aci318-19/17.5.2.2", {})).toBeNaN();
    expect(
      capacity(ACI, "aci318-19/17.5.2.2", {}, { options: { sustained: 1 } }) / 4.4482216152605,
    ).toBeCloseTo(0.55 * 11_781, 0);
    const settings = { options: { sustained: 1 } };
    expect(
      capacity(ACI, "aci318-19/17.5.2.2", {}, { ...settings, level: "design" }) /
        capacity(ACI, "aci318-19/17.5.2.2", {}, settings),
    ).toBeCloseTo(0.65, 12);
  });
});

describe("ACI 318-19 spacing, edge and thickness, 17.9", () => {
  const judged = (
    row: Partial<TestRowInput>,
    options: Readonly<Record<string, number>> = {},
  ): DetailVerdict[] =>
    detailChecks(ACI, ACI318_DETAIL_CHECKS, new Specimens(table(row), "nominal"), 0, options);
  const verdict = (of: readonly DetailVerdict[], part: string): string[] =>
    of
      .filter(
        ({ check, verdict: each }) => check.says.includes(part) && each !== "does not concern",
      )
      .map((each) => each.verdict);
  const pair = { group_nx: 2, spacing_x_mm: inch(3.75), bar_diameter_mm: inch(0.625) };

  it("adhesive bars: 6 diameters of spacing and edge distance, or the product's", () => {
    expect(verdict(judged(pair), "spacing of post-installed")).toEqual(["kept"]);
    expect(
      verdict(judged({ ...pair, spacing_x_mm: inch(3.7) }), "spacing of post-installed"),
    ).toEqual(["not kept"]);
    expect(
      verdict(
        judged({ ...pair, spacing_x_mm: inch(3.7) }, { product_spacing: inch(3) }),
        "spacing of post-installed",
      ),
    ).toEqual(["kept"]);
    expect(verdict(judged({ edge_2_mm: 90 }), "edge distance of adhesive")).toEqual(["not kept"]);
    expect(verdict(judged({}), "edge distance of adhesive")).toEqual(["kept"]);
    expect(
      verdict(judged({ edge_2_mm: 60 }, { aggregate: 25, product_edge: 50 }), "edge distance"),
    ).toEqual(["kept", "kept"]);
  });

  it("cast-in bars: 4 diameters, 6 when torqued", () => {
    const cast: Partial<TestRowInput> = { ...pair, installation: "cast_in", spacing_x_mm: inch(3) };
    expect(verdict(judged(cast), "spacing of cast-in")).toEqual(["kept"]);
    expect(verdict(judged(cast, { torqued: 1 }), "spacing of torqued")).toEqual(["not kept"]);
    expect(
      verdict(judged({ ...cast, edge_1_mm: 60 }, { cover_required: 60 }), "required cover"),
    ).toEqual(["not kept"]);
  });

  it("thickness: a missing value is named, not guessed", () => {
    expect(
      verdict(judged({ member_thickness_mm: 200, hole_diameter_mm: 20 }), "member thickness"),
    ).toEqual(["kept"]);
    expect(
      verdict(judged({ member_thickness_mm: 190, hole_diameter_mm: 20 }), "member thickness"),
    ).toEqual(["not kept"]);
    expect(
      verdict(judged({ member_thickness_mm: null, hole_diameter_mm: 20 }), "member thickness"),
    ).toEqual(["missing value"]);
    expect(
      judged({ member_thickness_mm: 200, hole_diameter_mm: 20 }).find(
        ({ check }) => check.clause === "17.9.4",
      )?.least_mm,
    ).toBeCloseTo(inch(6) + 40, 9);
  });
});
