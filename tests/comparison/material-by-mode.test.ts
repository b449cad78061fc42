import { describe, expect, it } from "vitest";
import {
  classStrata,
  compare,
  compareClasses,
  type Comparison,
} from "../../kernel-lib/src/comparison";
import { code } from "../../kernel-lib/src/provisions";
import { censored, clusters, values } from "../statistics/censoring/right-censored-loads";
import { table } from "../provisions/specimens";
import { expectSaid } from "../says";

interface Load {
  readonly kN: number;
  readonly series: string;
  readonly material: "steel" | "gfrp";
  readonly bound?: boolean;
}

// One capacity for all rows, so that ratios are the loads but for a factor.
const compared = (loads: readonly Load[]): Comparison => {
  const rows = loads.map(({ kN, series, material, bound = false }) => ({
    bar_diameter_mm: 16,
    embedment_mm: 100,
    cracked: "no" as const,
    peak_load_kN: kN,
    series_id: series,
    bar_material: material,
    failure_mode: bound ? ("rupture_at_grip" as const) : ("bond" as const),
  }));
  const all = compare(table(...rows), code("uniform-bond-1998"), {
    level: "expected",
    options: { mean_bond_stress: 10 },
  });
  return { ...all, evidence: all.evidence.filter(({ mode }) => mode === "bond") };
};
/** R: t.test(log(c(42, 48, 44)), log(c(40, 44, 42))). */
const WELCH = {
  p: 0.28004945875434,
  df: 3.5891686427947,
  lower: -0.07826489011508,
  upper: 0.19981259464438,
};
const question = { column: "bar_material", reference: "steel" };
const loads = values.map((kN, i): Load => ({
  kN,
  series: clusters[i]!,
  material: i < 6 ? "steel" : "gfrp",
  bound: censored[i]!,
}));
const strata = (of: readonly Load[]) => classStrata(compared(of), ["mode"]);
const only = (of: readonly Load[]) => compareClasses(strata(of), question)[0]!;

describe("classes mode by mode with lower bounds", () => {
  const line = only(loads);

  it("two series a class: the series effect is included, t on series - 2; the log-rank p is R's survdiff(Surv(x, d) ~ g)", () => {
    expect(line).toMatchObject({
      mode: "bond",
      other: "gfrp",
      failures: [4, 4],
      lowerBounds: [2, 2],
      failedSeries: [2, 2],
      degreesOfFreedom: 2,
      seriesEffect: "included",
      seriesEffectReason: null,
    });
    expect(line.pLogRank).toBeCloseTo(0.811252376155, 8);
    // No significant difference, in words that do not call the classes equal.
    expect(line.p).toBeGreaterThan(0.05);
    expectSaid(line.reading, /^no significant difference/i, "median bond ratio", "4 lower bounds");
    expectSaid(line.reading, /\bnot show .*steel and GFRP .*equal/, /series effect included/i);
    expectSaid(line.reading, "2 and 2 series", "4 series");
  });

  it("without lower bounds is R's nlme::lme(log(y) ~ g, random = ~ 1 | series), t on 4", () => {
    const ratios = [
      1.02, 1.1, 0.95, 1.21, 1.15, 1.3, 0.88, 0.97, 0.84, 0.79, 0.9, 1.05, 0.99, 1.12, 1.01, 0.8,
      0.86,
    ];
    const series = [1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 4, 5, 5, 5, 5, 6, 6];
    const found = only(
      ratios.map((ratio, i) => ({
        kN: 50 * ratio,
        series: `s${series[i]!}`,
        material: i < 8 ? "steel" : "gfrp",
      })),
    );
    expect(Math.log(found.ratio!)).toBeCloseTo(-0.1522917146, 6);
    expect(found.p).toBeCloseTo(0.237000382717, 4);
    // Estimate ± 2.776445 (t of 0.975 on 4) times the standard error.
    expect(Math.log(found.upper!)).toBeCloseTo(-0.1522917146 + 2.7764451 * 0.1095950104, 4);
  });

  it("turn to one over the ratio when the reference turns", () => {
    const [turned] = compareClasses(strata(loads), { ...question, reference: "gfrp" });
    expect(turned!.ratio! * line.ratio!).toBeCloseTo(1, 5);
    expect(turned!.lower! * line.upper!).toBeCloseTo(1, 4);
    expect(turned!.p).toBeCloseTo(line.p!, 5);
  });

  it("find a shift that is there, and say it with its sign", () => {
    const low = only(loads.map((load, i) => (i < 6 ? load : { ...load, kN: 0.6 * load.kN })));
    expect(low.ratio).toBeCloseTo(0.6 * line.ratio!, 4);
    const percent = `${(100 * (1 - low.ratio!)).toFixed(0)} % lower`;
    expectSaid(low.reading, percent, "steel", "95 % CI");
  });

  it("say what is missing where a side hardly failed", () => {
    const none = only(loads.map((load, i) => (i < 6 ? load : { ...load, bound: true })));
    expect(none).toMatchObject({
      ratio: null,
      p: null,
      pAdjusted: null,
      pLogRank: null,
      seriesEffect: null,
      failures: [4, 0],
      lowerBounds: [2, 6],
    });
    expectSaid(none.reading, "no comparison", "4 and 0 failures", "at least 3");
  });
});

describe("one series a class", () => {
  // Three tests of each, as printed by the issue: cluster-robust errors gave p = 1.5e-15 and an
  // interval from 6.2 to 6.2 %.
  const three: Load[] = [40, 44, 42, 42, 48, 44].map((kN, i) => ({
    kN,
    series: i < 3 ? "s1" : "g1",
    material: i < 3 ? "steel" : "gfrp",
  }));
  const found = only(three);

  it("is Welch's test of ln ratio, the series effect ignored and said to be", () => {
    expect(found).toMatchObject({ seriesEffect: "ignored", failedSeries: [1, 1] });
    expect(found.p).toBeCloseTo(WELCH.p, 9);
    expect(found.degreesOfFreedom).toBeCloseTo(WELCH.df, 9);
    expect(Math.log(found.lower!)).toBeCloseTo(WELCH.lower, 9);
    expect(Math.log(found.upper!)).toBeCloseTo(WELCH.upper, 9);
    expectSaid(found.seriesEffectReason, "steel has 1 series", "GFRP has 1 series", "at least 2");
    expectSaid(found.reading, /series effect ignored/i, "assumes independent tests");
  });

  it("with a lower bound is a censored fit on failures - 2 degrees of freedom, the series effect ignored", () => {
    const bounded = only([...three, { kN: 47, series: "g1", material: "gfrp", bound: true }]);
    expect(bounded).toMatchObject({
      seriesEffect: "ignored",
      degreesOfFreedom: 4,
      lowerBounds: [0, 1],
    });
    expect(bounded.ratio).toBeGreaterThan(found.ratio!);
    expect(bounded.upper! / bounded.lower!).toBeGreaterThan(1.05);
    expect(bounded.p).toBeGreaterThan(0.001);
  });

  it("so is one series against many, and a test without a series", () => {
    const many = only([
      ...three,
      { kN: 45, series: "g2", material: "gfrp" },
      { kN: 41, series: "g3", material: "gfrp" },
    ]);
    expect(many.seriesEffect).toBe("ignored");
    expectSaid(many.seriesEffectReason, "steel has 1 series");
    expect(many.seriesEffectReason).not.toContain("GFRP has");
    const nameless = only(loads.map((load, i) => (i === 3 ? { ...load, series: "" } : load)));
    expectSaid(nameless.seriesEffectReason, "1 of 6 tests of steel", "series");
  });

  it("equal values give no comparison, and equal values in one class no p near 0", () => {
    const flat = only(three.map((load) => ({ ...load, kN: load.material === "steel" ? 40 : 44 })));
    expect(flat).toMatchObject({ p: null, lower: null });
    expectSaid(flat.reading, "no comparison", "no spread");
    const half = only(
      three.map((load) => (load.material === "steel" ? { ...load, kN: 42 } : load)),
    );
    expect(half.upper! / half.lower!).toBeGreaterThan(1.05);
    const seriesFlat = only(
      ["a", "b"].flatMap((name) =>
        [40, 42, 44].flatMap((kN): Load[] => [
          { kN, series: `s${name}`, material: "steel" },
          { kN: 1.05 * kN, series: `g${name}`, material: "gfrp" },
        ]),
      ),
    );
    expect(seriesFlat.seriesEffect).toBe("included");
    expect(seriesFlat.p).toBeGreaterThan(0.05);
    expect(seriesFlat.upper! / seriesFlat.lower!).toBeGreaterThan(1.1);
  });

  it("a series with tests of both classes is named in a caution", () => {
    const shared = loads.map((load) => (load.series === "c" ? { ...load, series: "a" } : load));
    expectSaid(only(shared).reading, /1 series .*both classes/);
  });
});
