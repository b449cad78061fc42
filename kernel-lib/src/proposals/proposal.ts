/** A proposed change to one provision: where it applies and by what factor the capacity is multiplied. */
export interface Proposal {
  readonly id: string;
  readonly title: string;
  /** The provision that changes, e.g. `aci318-19/17.6.5`. */
  readonly changes: string;
  /** Symbol of the new factor in formulas, e.g. `psi_frp`. */
  readonly symbol: string;
  /** Where it applies: a condition over inputs and steps of the provision, e.g. `gfrp == 1 && post_installed == 1`. */
  readonly where: string;
  /** The factor: a number or a formula over inputs and steps of the provision, e.g. `0.85` or `min(1, 16 / d_a)`. */
  readonly factor: string;
  /** The factor in words a code could print. */
  readonly says: string;
  readonly rationale: string;
  /** How the factor was derived, from the derivation's own words. */
  readonly derivation: string;
  /** The evidence: how many tests and series, and from where. */
  readonly evidence: string;
}
