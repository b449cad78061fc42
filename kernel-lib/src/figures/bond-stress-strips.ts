import { valueWords } from "../comparison";
import { normaliseTests, type NormalisedTests, type TestTable } from "../dataset";
import type { StripGroup } from "./strip-group";

/** Bond stresses as strips, and how they were brought to one concrete strength. */
export interface BondStressStrips {
  readonly groups: readonly StripGroup[];
  /** One sentence: the exponent on concrete strength and where it comes from. */
  readonly exponentWords: string;
}

/**
 * Bond stress of the tests in tension that failed in bond, by study, material and set-up, at one
 * concrete strength: tau (reference / f_c)^m over the geometric mean of the tests of the same
 * material and set-up. A study whose strip lies apart differs in something that the columns do not
 * say. m is fitted within like tests of a study; where that is not possible, that of the mode.
 * @param reference_MPa cylinder strength that the stresses are brought to, MPa
 * @example bondStressStrips(data.tests, 30).groups
 */
export function bondStressStrips(tests: TestTable, reference_MPa: number): BondStressStrips {
  const bond = tests
    .kept()
    .where(({ failure_mode, action }) => failure_mode === "bond" && action === "tension");
  if (bond.length === 0) return { groups: [], exponentWords: "No test in tension failed in bond." };
  const { tests: brought, fit } = broughtTo(bond, reference_MPa);
  const points = brought.map(({ index, test_id, normalised }) => {
    const of = (column: string): string => bond.text(index, column) ?? "unknown";
    const kind = `${valueWords(of("bar_material"))}, ${valueWords(of("setup"))}`;
    return { test_id, kind, label: `${of("study_id")}, ${kind}`, log: Math.log(normalised) };
  });
  const level = new Map(
    [...new Set(points.map(({ kind }) => kind))].map((kind) => {
      const own = points.filter((one) => one.kind === kind);
      return [kind, own.reduce((sum, { log }) => sum + log, 0) / own.length] as const;
    }),
  );
  const labels = [...new Set(points.map(({ label }) => label))].sort();
  return {
    groups: labels.map((label) => ({
      label,
      mean: NaN,
      meanMinus3Sd: NaN,
      fractile: NaN,
      lower: NaN,
      upper: NaN,
      tests: points
        .filter((one) => one.label === label)
        .map(({ test_id, kind, log }) => ({
          ratio: Math.exp(log - level.get(kind)!),
          censored: false,
          label: test_id,
        })),
    })),
    exponentWords:
      fit === null
        ? "Exponent on concrete strength: that of bond, since the tests do not allow a fit."
        : `Exponent on concrete strength ${fit.exponent.toFixed(2)} (standard error ${fit.standardError.toFixed(2)}), fitted within like tests of a study.`,
  };
}

function broughtTo(bond: TestTable, reference_MPa: number): NormalisedTests {
  const request = {
    quantity: "bond_stress",
    by: "concrete",
    reference_MPa,
    unknownBasis: "as_cylinder",
  } as const;
  try {
    return normaliseTests(bond, { ...request, exponent: "fitted" });
  } catch (error) {
    // Too few like tests, or one concrete strength only.
    if (!(error instanceof RangeError)) throw error;
    return normaliseTests(bond, { ...request, exponent: "by_mode" });
  }
}
