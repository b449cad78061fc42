import { didYouMean } from "../../dataset";
import type { DetailCheck } from "./detail-check";
import type { InteractionRule } from "./interaction-rule";
import type { Confidence, FailureMode, Level } from "./levels";
import type { TestedBy } from "./tested-by-rule";
import type { Quantity, UnitSystem } from "./unit-system";

/** One line of the hand calculation. */
export interface Step {
  readonly symbol: string;
  readonly formula: string;
  readonly quantity: Quantity;
  readonly clause: string;
  readonly meaning: string;
  /** A formula: the line is printed only where it holds, since elsewhere it says nothing. */
  readonly concerns?: string;
}

/** A limit of applicability. `holds` is a formula over inputs and steps. */
export interface Limit {
  readonly clause: string;
  readonly holds: string;
  readonly says: string;
  /** `not_applicable` withholds the capacity; `outside` gives it and flags it. */
  readonly effect: "not_applicable" | "outside";
  /**
   * The limit spares what need not be checked: of a group taken apart it withholds only where it
   * spares every part.
   */
  readonly spares?: true;
}

/**
 * One capacity of one code, written once: inputs, limits, steps in order, and which step is the
 * capacity.
 *
 * `split`: names of steps that give the spacing beyond which bars no longer act together, across
 * (x, normal to edge 1) and along (y); a group wider than that is taken apart and the capacities of
 * its parts are added.
 */
export interface ProvisionDefinition {
  /** code id, slash, clause: `aci318-19/17.6.2` */
  readonly id: string;
  readonly title: string;
  readonly action: "tension" | "shear";
  /** The observed failure modes this capacity is the prediction of; the first names it. */
  readonly modes: readonly [FailureMode, ...FailureMode[]];
  readonly confidence: Confidence;
  /** What of an M is from memory, where it is not the whole equation. */
  readonly toCheck?: string;
  /**
   * Month and year in which published pages were searched for it in vain; what was found stands no
   * longer in `toCheck`.
   */
  readonly searched?: string;
  readonly levels: readonly Level[];
  readonly limits: readonly Limit[];
  readonly steps: readonly Step[];
  /** The symbol of the step that is the capacity (a force). */
  readonly capacity: string;
  /** The factor that turns the nominal into the design value. */
  readonly reduction?: Step;
  readonly split?: { readonly x?: string; readonly y?: string };
  /** The tests by which it is judged, where they are others than those of its code. */
  readonly testedBy?: TestedBy;
  readonly notes?: readonly string[];
}

/**
 * A quantity that the user of a code may state; blank takes the plain case. Lengths and stresses in
 * mm and MPa.
 */
export interface CodeOption {
  readonly quantity: Quantity;
  readonly value: number;
  readonly meaning: string;
  readonly clause: string;
}

/**
 * Something of a code that has a function of its own instead of a column: an interaction, a bend, a
 * bond law.
 */
export interface CalledRule {
  readonly id: string;
  readonly clause: string;
  readonly title: string;
  /** The function and what it takes. */
  readonly call: string;
  readonly confidence: Confidence;
}

/**
 * A code: its provisions, the options it offers, its unit system, what it leaves out and how
 * doubtful places are read.
 */
export interface CodeDefinition {
  readonly id: string;
  readonly title: string;
  readonly edition: string;
  readonly system: UnitSystem;
  /** What of the edition is coded, by clause. */
  readonly covers: string;
  /** The tests by which its provisions are judged, unless a provision states its own. */
  readonly testedBy: TestedBy;
  readonly options: Readonly<Record<string, CodeOption>>;
  readonly provisions: readonly ProvisionDefinition[];
  /**
   * Places that can be read in two ways, or that data fill in a way of their own: what is taken,
   * and the option that takes another.
   */
  readonly readings?: readonly string[];
  /**
   * Where a capacity jumps as one input passes a value, because the edition says so: a test looks
   * for others.
   */
  readonly jumps?: readonly string[];
  /**
   * What direction, drilling, cleaning and moisture of the hole and the temperatures change; left
   * out: see `installationWords`.
   */
  readonly installation?: string;
  /** Rules on spacing, edge distance and thickness, judged beside the capacities. */
  readonly checks?: readonly DetailCheck[];
  /** How tension and shear act together, in the order of option `interaction_form`. */
  readonly interactions?: readonly InteractionRule[];
  /** What has a function of its own. */
  readonly called?: readonly CalledRule[];
  /** What of the edition is not coded, and why. */
  readonly gaps: readonly string[];
}

/** A step, in the order symbol, formula, quantity, clause, meaning. */
export function step(
  symbol: string,
  formula: string,
  quantity: Quantity,
  clause: string,
  meaning: string,
): Step {
  return { symbol, formula, quantity, clause, meaning };
}

/** A limit that withholds the capacity when it does not hold. */
export function required(clause: string, holds: string, says: string): Limit {
  return { clause, holds, says, effect: "not_applicable" };
}

/**
 * A limit that withholds the capacity where nothing of the group needs the check; a part that needs
 * none counts beside one that does.
 */
export function spared(clause: string, holds: string, says: string): Limit {
  return { clause, holds, says, effect: "not_applicable", spares: true };
}

/** A limit that is reported but does not withhold the capacity. */
export function reported(clause: string, holds: string, says: string): Limit {
  return { clause, holds, says, effect: "outside" };
}

/**
 * Refuses an option that a code does not offer. @throws Error naming the options there are and the
 * one most like it
 */
export function requireOffered(
  { id, options }: Pick<CodeDefinition, "id" | "options">,
  names: readonly string[],
): void {
  for (const name of names) {
    if (!options[name])
      throw new Error(
        `${id} offers no option "${name}"${didYouMean(name, Object.keys(options))}; expected one of ${Object.keys(options).join(", ") || "none"}.`,
      );
  }
}
