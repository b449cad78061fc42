import type { ProvisionDefinition } from "../provisions";
import type { Criterion } from "./criteria";
import type { ValidityLimit } from "./validity-limits";

/**
 * A proposed change to one provision: where it applies and by what factor the capacity is
 * multiplied.
 */
export interface Proposal {
  readonly id: string;
  readonly title: string;
  /** The provision that changes, e.g. `aci318-19/17.6.5`. */
  readonly changes: string;
  /**
   * Further provisions of the same family, which change by the same factor, e.g. the edges that a
   * load runs parallel to.
   */
  readonly alsoChanges?: readonly string[];
  /** Symbol of the new factor in formulas, e.g. `psi_frp`. */
  readonly symbol: string;
  /**
   * Where it applies: a condition over inputs and steps of the provision, e.g. `gfrp == 1 &&
   * post_installed == 1`.
   */
  readonly where: string;
  /**
   * The factor: a number or a formula over inputs and steps of the provision, e.g. `0.85` or
   * `min(1, 16 / d_a)`.
   */
  readonly factor: string;
  /** The factor in words a code could print. */
  readonly says: string;
  readonly rationale: string;
  /** The criterion the factor was derived by; absent where it was chosen otherwise. */
  readonly criterion?: Criterion;
  /** Whether the tests show that a reduction is needed; absent where nobody asked. */
  readonly supported?: boolean;
  /** How the factor was derived, from the derivation's own words. */
  readonly derivation: string;
  /** The evidence: how many tests and series, and from where. */
  readonly evidence: string;
  /** The tested range; a warning shows how far a design point lies outside. */
  readonly limits?: readonly ValidityLimit[];
}

/** A proposed provision that the code lacks, such as the shear strength of FRP bars. */
export interface Addition {
  readonly kind: "addition";
  readonly id: string;
  readonly title: string;
  /**
   * The whole provision, in the unit system of the code; its id begins with the code's id and a
   * slash.
   */
  readonly provision: ProvisionDefinition;
  readonly says: string;
  readonly rationale: string;
  readonly evidence: string;
  readonly limits?: readonly ValidityLimit[];
}

/** A proposal that a provision does not apply under a condition: the capacity is withheld there. */
export interface Restriction {
  readonly kind: "restriction";
  readonly id: string;
  readonly title: string;
  /** The provision that is restricted. */
  readonly changes: string;
  /** Further provisions of the same family, restricted alike. */
  readonly alsoChanges?: readonly string[];
  /** Where it is not permitted: a condition over inputs and steps of the provision. */
  readonly where: string;
  /** The restriction in words a code could print. */
  readonly says: string;
  readonly rationale: string;
  readonly evidence: string;
  readonly limits?: readonly ValidityLimit[];
}

/** A factor on a provision, a provision added, or one restricted. */
export type ProposedChange = Proposal | Addition | Restriction;

/**
 * All provisions that a factor or restriction changes, the named one first; for an addition the one
 * it brings.
 */
export function changedProvisions(change: ProposedChange): readonly string[] {
  if ("kind" in change && change.kind === "addition") return [change.provision.id];
  return [change.changes, ...(change.alsoChanges ?? [])];
}
