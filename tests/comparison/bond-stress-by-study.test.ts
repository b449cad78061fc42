import { describe, expect, it } from "vitest";
import { bondStressByStudy } from "../../kernel-lib/src/comparison";
import type { TestTable } from "../../kernel-lib/src/dataset";
import { bars } from "./grips/rows";

/** Small errors in pairs of opposite sign: they cancel in every mean of logarithms. */
const ERRORS = [0.05, -0.05, 0.02, -0.02];

/**
 * Bond failures of two studies at two concrete strengths, with ln N = m ln f + shift + error, kN
 * and MPa: exponent and shift between the studies are known.
 */
function twoStudies(m: number, shift: number): TestTable {
  const cells = ["one", "two"].flatMap((study_id) => [25, 50].map((f) => ({ study_id, f })));
  return bars(
    cells.flatMap(({ study_id, f }) =>
      ERRORS.map((error) => ({
        study_id,
        failure_mode: "bond" as const,
        setup: "confined_tension" as const,
        concrete_strength_MPa: f,
        peak_load_kN: 10 * Math.exp(m * Math.log(f) + error) * (study_id === "two" ? shift : 1),
      })),
    ),
  );
}

const geometricMean = (ratios: readonly number[]): number =>
  Math.exp(ratios.reduce((sum, ratio) => sum + Math.log(ratio), 0) / ratios.length);

describe("bond stress by study", () => {
  it("recovers a known exponent and a known shift between two studies", () => {
    const [found, ...others] = bondStressByStudy(twoStudies(0.3, 1.5), 30);
    expect(others).toEqual([]);
    expect(found!.exponent!.exponent).toBeCloseTo(0.3, 10);
    const of = (name: string): number =>
      geometricMean(found!.tests.filter(({ study }) => study === name).map(({ ratio }) => ratio));
    expect(of("two") / of("one")).toBeCloseTo(1.5, 10);
    // By hand, balanced one-way layout: s_w^2 = 16 x mean square of the errors / 14,
    // s_b^2 = (ln 1.5)^2 / 2 - s_w^2 / 8 (analysis of variance, which REML equals here).
    const within = (16 * ((0.05 ** 2 + 0.02 ** 2) / 2)) / 14;
    const between = Math.log(1.5) ** 2 / 2 - within / 8;
    expect(found!.model!.withinStudySd.estimate).toBeCloseTo(Math.sqrt(within), 6);
    expect(found!.model!.betweenStudySd.estimate).toBeCloseTo(Math.sqrt(between), 5);
  });

  it("leaves stresses as measured where the exponent cannot be that of concrete", () => {
    const [found] = bondStressByStudy(twoStudies(-1.2, 1), 30);
    expect(found!.exponent!.exponent).toBeCloseTo(-1.2, 10);
    expect(found!.asMeasured).toContain("confounded");
    const ratios = found!.tests.map(({ ratio }) => ratio);
    expect(Math.max(...ratios) / Math.min(...ratios)).toBeCloseTo(2 ** 1.2 * Math.exp(0.1), 10);
  });

  it("of one concrete strength and one study keeps its tests and says why there is no model", () => {
    const few = twoStudies(0, 1).where(
      (row) => row.concrete_strength_MPa === 25 && row.study_id === "one",
    );
    const [found] = bondStressByStudy(few, 30);
    expect(found!.tests.length).toBe(4);
    expect(found!.asMeasured).toBe("the tests do not allow a fit");
    expect(found!.model).toBeNull();
    expect(found!.reason).toContain("at least 2 studies");
  });

  it("of tests that did not fail in bond is empty", () => {
    expect(bondStressByStudy(bars([{}]), 30)).toEqual([]);
  });
});
