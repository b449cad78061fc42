import type { Confidence } from "../model/levels";

/**
 * One lookup: what it holds, where its values come from, how sure they are, and how it is called.
 */
export interface LookupCard {
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly call: string;
  readonly confidence: Confidence;
}

/**
 * The tables and rules beside the codes; the cards of the provisions list it with the tests that
 * check it.
 */
export const LOOKUPS: readonly LookupCard[] = [
  {
    id: "bar-sizes",
    title: "Nominal diameter and area of bars: US, their metric twins, CSA steel, EN",
    source: "printed tables of the sizes; CSA steel from memory",
    call: 'barSize("us", "No. 5")',
    confidence: "H",
  },
  {
    id: "csa-frp-sizes",
    title: "Nominal sizes of CSA FRP bars",
    source: "from memory",
    call: 'barSize("csa_frp", "15M")',
    confidence: "M",
  },
  {
    id: "astm-d7957-forces",
    title: "Guaranteed tensile force of glass FRP bars",
    source: "ASTM D7957, from memory",
    call: "astmD7957Bar(5)",
    confidence: "M",
  },
  {
    id: "astm-d7957-least",
    title:
      "Minimum modulus, strain, transverse shear strength, bond strength and durability of glass FRP bars",
    source: "public abstracts of ASTM D7957",
    call: "ASTM_D7957_PROPERTIES",
    confidence: "H",
  },
  {
    id: "environmental-factors",
    title: "Environmental factor C_E by guide, fiber and exposure",
    source: "ACI 440.1R-15; ACI 440.11 and AASHTO from memory",
    call: 'environmentalFactor("aci440.1r-15", "glass", "exterior")',
    confidence: "M",
  },
  {
    id: "anchor-lightweight",
    title: "Fraction of lambda for anchors in lightweight concrete",
    source: "ACI 318-19 Table 17.2.4.1",
    call: 'anchorLightweightFactor("adhesive_bond", 0.85, true)',
    confidence: "H",
  },
  {
    id: "lightweight-density",
    title: "Lightweight factor lambda by density",
    source: "ACI 318-19 Table 19.2.4.1(a), from memory",
    call: "lightweightFactor(1800)",
    confidence: "M",
  },
  {
    id: "concrete-strength",
    title:
      "Conversion of concrete strength between specimen shapes, with the rule and its uncertainty",
    source: "EN 206 classes and common practice; each value names its rule",
    call: 'convertStrength(37, "cube_150", "cylinder")',
    confidence: "M",
  },
  {
    id: "mean-strength",
    title: "Mean cylinder strength from the characteristic strength",
    source: "EN 1992-1-1 Table 3.1",
    call: "meanStrength(25)",
    confidence: "H",
  },
  {
    id: "threaded-area",
    title: "Effective area of a threaded rod",
    source: "ACI 318-19 17.6.1.2",
    call: "threadedArea(19.05, 10)",
    confidence: "H",
  },
];

/** What was left out of the lookups, and why. */
export const LOOKUP_GAPS: readonly string[] = [
  "Limits on the measured area of ASTM D7957 bars, which could not be verified.",
  "ASTM D8505 (bars of higher modulus), whose forces are not available.",
  "Minimum cover, aggregate size and product values, which depend on the project and the product.",
];
