import { valueWords, type RatioGroup } from "../comparison";
import type { DerivedFactor } from "./characteristic-factor";
import type { Proposal } from "./proposal";

/** The provision a factor goes to, and the symbol of the factor. */
export interface FactorPlace {
  readonly changes: string;
  /** Further provisions of the family: the same failure towards other edges must not keep the old strength. */
  readonly alsoChanges?: readonly string[];
  readonly symbol: string;
}

/** The modes of ACI 318-19 in which FRP may behave otherwise than steel, each with the provision a factor goes to. */
export const FRP_MODES_ACI318: Readonly<Record<string, FactorPlace>> = {
  bond: { changes: "aci318-19/17.6.5", symbol: "psi_FRP_Na" },
  concrete_edge_breakout: { changes: "aci318-19/17.7.2", alsoChanges: ["aci318-19/17.7.2.1(c)-edge2", "aci318-19/17.7.2.1(c)-edge4"], symbol: "psi_FRP_V" },
  pryout: { changes: "aci318-19/17.7.3", symbol: "psi_FRP_cp" },
  bar_shear: { changes: "aci318-19/frp-transverse-shear", symbol: "psi_FRP_s" },
};

/**
 * One factor a mode for all FRP bars: the least of the materials' rounded factors, so that no material is left short
 * by being pooled. A mode in which a material has no factor, or in which none is below 1, gets no proposal.
 *
 * @param groups FRP groups that carry `mode`, in the order of `factors`
 * @example oneFactorPerMode(groups, factors, FRP_MODES_ACI318)
 */
export function oneFactorPerMode(groups: readonly RatioGroup[], factors: readonly DerivedFactor[], places: Readonly<Record<string, FactorPlace>>): Proposal[] {
  return Object.entries(places).flatMap(([mode, { changes, alsoChanges, symbol }]) => {
    const of = factors.filter((_, k) => groups[k]?.by["mode"] === mode);
    const rounded = of.flatMap(({ rounded: one }) => (one === null ? [] : [one]));
    if (of.length === 0 || rounded.length < of.length) return [];
    const factor = Math.min(...rounded);
    if (factor >= 1) return [];
    return [{
      id: `frp-${mode.replaceAll("_", "-")}`, title: `FRP bars in ${valueWords(mode)}`, changes, ...(alsoChanges ? { alsoChanges } : {}), symbol, where: "frp == 1", factor: String(factor), says: `${factor} for FRP bars, 1 for steel`,
      rationale: "The characteristic test-to-predicted ratio of FRP bars lies below 1.", derivation: of.map(({ reading }) => reading).join(" "),
      evidence: `${of.reduce((sum, { n }) => sum + n, 0)} tests that failed in the mode, ${of.reduce((sum, { nCensored }) => sum + nCensored, 0)} lower bounds`,
    }];
  });
}
