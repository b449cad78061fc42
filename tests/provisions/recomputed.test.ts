import { describe, expect, it } from "vitest";
import { bpeStress } from "../../kernel-lib/src/dataset";
import { code, developmentLength, localBondLaw } from "../../kernel-lib/src/provisions";
import {
  lengthCaseOf,
  lengthRuleOf,
  provisionOf,
  recomputedCases,
  rowOf,
  settingsOf,
  type RecomputedCase,
} from "./recomputed/cases";
import { ROW_CASES } from "./recomputed/rows/cases";
import { capacity } from "./specimens";

// Cases that somebody who had not read the library computed in Python from the clauses;
// recomputed/README.md says how. The
// expected values are theirs. Where a case takes the other reading of an open clause, the option
// that takes it is set here.
const CASES = recomputedCases();
const isLength = ({ result }: RecomputedCase): boolean => result.length_mm !== undefined;
const named = (cases: readonly RecomputedCase[]): (readonly [string, RecomputedCase])[] =>
  cases.map((one) => [`${one.code} ${one.id}: ${one.what}`, one] as const);
const value = (of: Readonly<Record<string, unknown>>, name: string): number => Number(of[name]);

/** What the library gives for a case that asks for a force or a stress, N or MPa. */
function computed(
  one: RecomputedCase,
  options: Readonly<Record<string, number>> = {},
  clause = "",
): number {
  const { of, provision } = provisionOf(one);
  const settings = settingsOf(one, of, provision.levels);
  const row = rowOf(one);
  const force = capacity(of, clause === "" ? provision.id : `${one.code}/${clause}`, row, {
    ...settings,
    options: { ...settings.options, ...options },
  });
  if (one.result.force_N !== undefined) return force;
  const d = row.bar_diameter_mm ?? NaN;
  const bondStress =
    one.code === "fib-mc2010" && one.inputs["quantity"] !== "anchorage_mean_stress";
  return (
    force /
    (bondStress
      ? Math.PI * d * (row.embedment_mm ?? NaN)
      : (row.bar_area_mm2 ?? (Math.PI / 4) * d * d))
  );
}

describe("recomputed by another hand: forces and stresses", () => {
  const local = CASES.filter(({ inputs }) => inputs["quantity"] === "local_bond_stress");
  const derived = CASES.filter(({ code }) => code === "combined-cone-bond");

  it.each(
    named(CASES.filter((one) => !isLength(one) && !local.includes(one) && !derived.includes(one))),
  )("%s", (_, one) => {
    const expected = one.result.force_N ?? one.result.stress_MPa ?? NaN;
    expect(Math.abs(computed(one) / expected - 1)).toBeLessThan(1e-9);
  });

  it.each(named(derived))("%s, with the coefficient converted and with 14.6", (_, one) => {
    expect(
      Math.abs(
        computed(one, { k_cone: value(one.intermediate, "k") }) / (one.result.force_N ?? NaN) - 1,
      ),
    ).toBeLessThan(1e-9);
    expect(Math.abs(computed(one) / value(one.intermediate, "with_14p6_N_N") - 1)).toBeLessThan(
      1e-9,
    );
  });

  it.each(named(CASES.filter(({ intermediate }) => "other_reading_NRk_sp_N" in intermediate)))(
    "%s, by the other reading",
    (_, one) => {
      expect(
        Math.abs(
          computed(one, { splitting_with_factors: 1 }, "7.2.1.7-factors") /
            value(one.intermediate, "other_reading_NRk_sp_N") -
            1,
        ),
      ).toBeLessThan(1e-9);
    },
  );

  it.each(named(local))("%s", (_, { inputs, result }) => {
    const law = localBondLaw({
      f_cm: value(inputs, "concrete_mean_strength_MPa"),
      goodConditions: inputs["good_bond"] === true,
      clearRibSpacing_mm: 10,
    });
    expect(
      Math.abs(bpeStress(value(inputs, "slip_mm"), law) / (result.stress_MPa ?? NaN) - 1),
    ).toBeLessThan(1e-9);
  });
});

describe("recomputed by another hand: lengths", () => {
  it.each(named(CASES.filter(isLength)))("%s", (_, one) => {
    const rule = lengthRuleOf(one);
    const { length_mm, steps } = developmentLength(
      rule,
      lengthCaseOf(one),
      settingsOf(one, rule.code, []).options,
    );
    // EN's basic anchorage length and the uncut equation of S806 stand before the least length.
    const uncut =
      one.clause === "8.4.2, 8.4.3"
        ? "l_b_rqd"
        : one.code === "csa-s806-12" && (one.result.length_mm ?? NaN) < 300
          ? "l_d_raw"
          : "";
    const found =
      uncut === "" ? length_mm : (steps.find(({ symbol }) => symbol === uncut)?.value ?? NaN);
    expect(Math.abs(found / (one.result.length_mm ?? NaN) - 1)).toBeLessThan(1e-9);
  });
});

it("every family of codes has at least three cases", () => {
  const count = (code: string): number => CASES.filter((one) => one.code === code).length;
  for (const code of [
    "aci318-19",
    "aci318-19m",
    "aci440.1r-15",
    "aci440.11-22",
    "csa-s806-12",
    "aashto-gfrp2-2018",
    "jsce-1997",
    "fib-mc2010",
    "en1992-4-2018",
    "en1992-1-1-2004",
    "en1992-1-1-2023",
    "ccd-1995",
    "ccd-1995-cube",
    "uniform-bond-1998",
    "cone-bond-1993",
    "combined-cone-bond",
    "edge-shear-2005",
    "wambeke-shield-2006",
    "orangun-1977",
    "aci408r-03",
  ]) {
    expect(count(code), code).toBeGreaterThanOrEqual(3);
  }
});

describe("recomputed in Python, row by row: provisions that few other cases check", () => {
  // What a row leaves blank is blank here, not the plain specimen's value.
  const blank = {
    bar_strength_MPa: null,
    bar_shear_strength_MPa: null,
    bond_strength_char_MPa: null,
    bond_strength_uncracked_char_MPa: null,
    bar_area_mm2: null,
    member_thickness_mm: null,
  } as const;

  it.each(
    ROW_CASES.map((one) => [`${one.code} ${one.id}, ${one.provision}: ${one.what}`, one] as const),
  )("%s", (_, { code: id, provision, level, row, options, force_N }) => {
    const found = capacity(
      code(id),
      provision,
      { ...blank, bar_strength_MPa: 5000, ...row },
      { level, options },
    );
    expect(Math.abs(found / force_N - 1), `${found} N, Python ${force_N} N`).toBeLessThan(1e-12);
  });
});
