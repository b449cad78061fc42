import { leastSquares } from "../../regression";
import type { BandAlong, RatiosAlong } from "./censored-band";

/**
 * Band along a variable of independent tests without lower bounds: the exact one-sided tolerance
 * band of least squares on logarithms.
 */
export function exactBand({
  ratios,
  x,
  grid,
  fractile,
  confidence,
}: Pick<RatiosAlong, "ratios" | "x" | "grid" | "fractile" | "confidence">): BandAlong {
  const fit = leastSquares({ y: ratios.map(Math.log), columns: { x: x.map(Math.log) } });
  return {
    exponent: fit.coefficient("x"),
    band: Array.from(
      fit.predict({ x: grid.map(Math.log) }, { fractile, toleranceConfidence: confidence })
        .tolerance,
    ),
  };
}
