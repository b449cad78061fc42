import { valueWords, type BondStressByStudy } from "../comparison";
import type { StripGroup } from "./strip-group";

/**
 * Bond stresses as strips, one a study, material and set-up. A study whose strip lies apart differs
 * in something that the columns do not state.
 * @example bondStressStrips(bondStressByStudy(data.tests, 30))
 */
export function bondStressStrips(found: readonly BondStressByStudy[]): StripGroup[] {
  return found.flatMap(({ material, tests }) => {
    const labelOf = (one: { readonly study: string; readonly setup: string }): string =>
      `${valueWords(material)}, ${valueWords(one.setup)}, ${one.study}`;
    return [...new Set(tests.map(labelOf))].sort().map((label) => ({
      label,
      mean: NaN,
      meanMinus3Sd: NaN,
      fractile: NaN,
      lower: NaN,
      upper: NaN,
      tests: tests
        .filter((one) => labelOf(one) === label)
        .map(({ test_id, ratio }) => ({ ratio, censored: false, label: test_id })),
    }));
  });
}

/** One sentence: the exponents on concrete strength and where they come from. */
export function exponentWords(found: readonly BondStressByStudy[]): string {
  if (found.length === 0) return "No test in tension failed in bond.";
  const parts = found.map(({ material, exponent, asMeasured }) => {
    const fitted =
      exponent === null
        ? ""
        : ` ${exponent.exponent.toFixed(2)} (standard error ${exponent.standardError.toFixed(2)})`;
    const without = asMeasured === null ? "" : `, not used: ${asMeasured}`;
    return `${valueWords(material)}${fitted}${without}`;
  });
  return `Exponent on concrete strength, fitted within comparable tests of a study: ${parts.join("; ")}.`;
}
