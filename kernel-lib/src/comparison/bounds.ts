import type { FailureMode as ObservedMode } from "../dataset";
import type { FailureMode } from "../provisions";

/**
 * Which failures bound which mode from below. `stated`: a bar that broke, yielded, slipped in the grip or was stopped
 * bounds bond, breakout and splitting, and bond failure bounds bar rupture. `every`: any failure in one mode bounds
 * every other mode that was free to happen, as competing modes do.
 */
export type BoundRule = "stated" | "every";

const STOPPED_EARLY: readonly ObservedMode[] = ["rupture_at_grip", "bar_rupture", "rupture_at_surface", "yield", "stopped"];
const CONCRETE_AND_BOND: readonly FailureMode[] = ["bond", "combined_cone_bond", "concrete_breakout", "splitting", "concrete_edge_breakout", "pryout"];

/** What a test that failed in `observed` tells of the capacity in `studied`. */
export function tellsOf(observed: string | null, studied: readonly FailureMode[], rule: BoundRule): "value" | "lower bound" | "nothing" {
  if (observed === null || observed === "unknown") return "nothing";
  if ((studied as readonly string[]).includes(observed)) return "value";
  if (rule === "every") return "lower bound";
  const mode = observed as ObservedMode;
  if (STOPPED_EARLY.includes(mode)) {
    // A break in the grip or a stop says as much of the bar as of the concrete; a break of the bar does not.
    const ofTheBar = mode === "rupture_at_grip" || mode === "stopped";
    return studied.some((one) => CONCRETE_AND_BOND.includes(one)) || ofTheBar ? "lower bound" : "nothing";
  }
  if (mode === "bond" && studied.includes("bar_rupture")) return "lower bound";
  return "nothing";
}
