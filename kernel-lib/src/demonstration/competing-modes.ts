import type { PlannedSeries } from "./campaign";
import {
  meanBarShear,
  meanBond,
  meanBreakout,
  meanCastInBond,
  meanEdgeBreakout,
  meanPryout,
  meanRupture,
  meanSplitting,
  type Specimen,
} from "./mean-capacity";
import { TRUTH, type TrueMode } from "./truth";

export const isBarMode = (mode: TrueMode): boolean =>
  mode === "bar_rupture" || mode === "rupture_at_grip" || mode === "bar_shear";

/** Mean capacity in N of every mode that can occur in a series. */
export function competingModes(
  series: PlannedSeries,
  specimen: Specimen,
): ReadonlyMap<TrueMode, number> {
  const modes = new Map<TrueMode, number>();
  if (series.setup === "direct_shear") {
    modes.set("bar_shear", meanBarShear(specimen));
    modes.set("pryout", meanPryout(specimen));
    if (Number.isFinite(specimen.edges[0]))
      modes.set("concrete_edge_breakout", meanEdgeBreakout(specimen));
    return modes;
  }
  modes.set("bar_rupture", meanRupture(specimen));
  if (series.poorGrip) modes.set("rupture_at_grip", TRUTH.gripShare * meanRupture(specimen));
  if (series.adhesive === null) {
    modes.set("bond", meanCastInBond(specimen));
    modes.set("splitting", meanSplitting(specimen));
  } else {
    modes.set("bond", meanBond(specimen, series.setup === "confined_tension"));
    if (series.setup === "unconfined_tension")
      modes.set("concrete_breakout", meanBreakout(specimen));
  }
  return modes;
}
