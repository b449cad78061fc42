import { INCH_POUND, SI, type UnitSystem } from "../../model/unit-system";

/**
 * The coefficients of the two printed forms of the edition. The metric form is rounded by its
 * authors, not converted, so the two may differ by up to 3 %; a study uses one and says which.
 */
export interface Form {
  readonly name: "in-lb" | "metric";
  readonly system: UnitSystem;
  /** 17.6.2.2.1 k_c for cast-in and post-installed. */
  readonly breakoutCastIn: number;
  readonly breakoutPostInstalled: number;
  /** 17.6.2.2.3 deep cast-in heads: coefficient and the range of embedment it may be used in. */
  readonly deepBreakout: number;
  readonly deepFrom: number;
  readonly deepTo: number;
  /** 17.6.5.1.2 stress under the root in c_Na. */
  readonly bondReference: number;
  /** 17.7.2.2.1 (a) and (b). */
  readonly edgeFirst: number;
  readonly edgeSecond: number;
  /** 17.7.2.2.2 in place of (a) for cast-in bars welded to a plate. */
  readonly edgeWelded: number;
  /** 17.6.4.1 side-face blowout of heads. */
  readonly sideFace: number;
  /** 17.7.3.1.1 embedment from which k_cp is 2. */
  readonly pryoutDepth: number;
  /** 17.3.1 strength limits. */
  readonly strengthCastIn: number;
  readonly strengthPostInstalled: number;
  /** 17.6.1.2 cap on f_uta. */
  readonly steelCap: number;
  /** 17.3.2 largest diameter for edge breakout. */
  readonly largestDiameter: number;
  /** Table 17.6.5.2.5: outdoor cracked, outdoor uncracked, indoor cracked, indoor uncracked. */
  readonly bondTable: readonly [number, number, number, number];
  /** 26.7.2 / 17.2.2 least concrete strength at installation of an adhesive bar. */
  readonly leastStrengthAdhesive: number;
  /**
   * 25.4.2: 40/3 and its metric twin in the developed stress; cap on the root of f'c; least length.
   */
  readonly development: string;
  readonly rootCap: number;
  readonly leastDevelopment: number;
}

/** The inch-pound edition, which is the code. */
export const IN_LB: Form = {
  name: "in-lb",
  system: INCH_POUND,
  breakoutCastIn: 24,
  breakoutPostInstalled: 17,
  deepBreakout: 16,
  deepFrom: 11,
  deepTo: 25,
  bondReference: 1100,
  edgeFirst: 7,
  edgeSecond: 9,
  edgeWelded: 8,
  sideFace: 160,
  pryoutDepth: 2.5,
  strengthCastIn: 10_000,
  strengthPostInstalled: 8_000,
  steelCap: 125_000,
  largestDiameter: 4,
  bondTable: [200, 650, 300, 1000],
  leastStrengthAdhesive: 2_500,
  development: "(40 / 3)",
  rootCap: 100,
  leastDevelopment: 12,
};

/** The separate metric edition. */
export const METRIC: Form = {
  name: "metric",
  system: SI,
  breakoutCastIn: 10,
  breakoutPostInstalled: 7,
  deepBreakout: 3.9,
  deepFrom: 280,
  deepTo: 635,
  bondReference: 7.6,
  edgeFirst: 0.6,
  edgeSecond: 3.7,
  edgeWelded: 0.66,
  sideFace: 13,
  pryoutDepth: 65,
  strengthCastIn: 70,
  strengthPostInstalled: 55,
  steelCap: 860,
  largestDiameter: 100,
  bondTable: [1.4, 4.5, 2.1, 7.0],
  leastStrengthAdhesive: 17,
  development: "1.1",
  rootCap: 8.3,
  leastDevelopment: 300,
};
