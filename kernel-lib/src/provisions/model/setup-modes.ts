import type { ProvisionDefinition } from "./definition";
import type { FailureMode } from "./levels";

const EVERY_TENSION: readonly FailureMode[] = [
  "concrete_breakout",
  "bond",
  "combined_cone_bond",
  "splitting",
  "bar_rupture",
  "yield",
  "rupture_at_surface",
];
const SHEAR: readonly FailureMode[] = [
  "concrete_edge_breakout",
  "pryout",
  "bar_shear",
  "rupture_at_surface",
];
const BOND_SPECIMEN: readonly FailureMode[] = ["bond", "splitting", "bar_rupture", "yield"];

/**
 * The modes a test arrangement leaves free to happen; a capacity of any other mode cannot be judged
 * by it.
 */
const FREE_MODES: Readonly<Record<string, readonly FailureMode[]>> = {
  // The support close to the bar holds the concrete down: no cone can form.
  confined_tension: ["bond", "bar_rupture", "yield"],
  unconfined_tension: EVERY_TENSION,
  direct_shear: SHEAR,
  combined_loading: [...new Set([...EVERY_TENSION, ...SHEAR])],
  pullout_block: BOND_SPECIMEN,
  beam_end: BOND_SPECIMEN,
  hinged_beam: BOND_SPECIMEN,
  splice: BOND_SPECIMEN,
};

/** Whether a test in this arrangement can fail in that mode. */
export function setupAllows(setup: string | null, mode: FailureMode): boolean {
  return FREE_MODES[setup ?? ""]?.includes(mode) ?? false;
}

/**
 * Whether a test has a load of that kind; one with tension and shear has either, and belongs to
 * neither alone.
 */
export function hasLoad(action: string | null, kind: "tension" | "shear"): boolean {
  return action === kind || action === "tension_and_shear";
}

/**
 * The arrangement with one load that the tension, or the shear, of a test with both loads stands
 * for; any other as it is.
 */
export function setupOfAction(setup: string | null, kind: "tension" | "shear"): string | null {
  return setup !== "combined_loading"
    ? setup
    : kind === "tension"
      ? "unconfined_tension"
      : "direct_shear";
}

/**
 * Whether a test of that action in that arrangement can reach the capacity of a provision: only
 * then can it govern.
 */
export function testReaches(
  action: string | null,
  setup: string | null,
  provision: ProvisionDefinition,
): boolean {
  return provision.action === action && provision.modes.some((mode) => setupAllows(setup, mode));
}
