import type { FailureMode, ProvisionDefinition } from "./definition";

const EVERY_TENSION: readonly FailureMode[] = ["concrete_breakout", "bond", "combined_cone_bond", "splitting", "bar_rupture", "yield", "rupture_at_surface"];
const BOND_SPECIMEN: readonly FailureMode[] = ["bond", "splitting", "bar_rupture", "yield"];

/** The modes a test arrangement leaves free to happen; a capacity of any other mode cannot be judged by it. */
const FREE_MODES: Readonly<Record<string, readonly FailureMode[]>> = {
  // The support close to the bar holds the concrete down: no cone can form.
  confined_tension: ["bond", "bar_rupture", "yield"],
  unconfined_tension: EVERY_TENSION,
  direct_shear: ["concrete_edge_breakout", "pryout", "bar_shear", "rupture_at_surface"],
  pullout_block: BOND_SPECIMEN,
  beam_end: BOND_SPECIMEN,
  hinged_beam: BOND_SPECIMEN,
  splice: BOND_SPECIMEN,
};

/** Whether a test in this arrangement can fail in that mode. */
export function setupAllows(setup: string | null, mode: FailureMode): boolean {
  return FREE_MODES[setup ?? ""]?.includes(mode) ?? false;
}

/** Whether a test of that action in that arrangement can reach the capacity of a provision: only then can it govern. */
export function testReaches(action: string | null, setup: string | null, provision: ProvisionDefinition): boolean {
  return provision.action === action && provision.modes.some((mode) => setupAllows(setup, mode));
}
