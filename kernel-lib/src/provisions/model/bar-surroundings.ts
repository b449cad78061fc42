import { step, type Step } from "./definition";

/**
 * Lesser of the distance from the bar's centre to the surface and half the centre spacing: c_b or C
 * of the US rules.
 */
export const lesserCentreDistance = (symbol: string, clause: string): Step =>
  step(
    symbol,
    "min(c_cover + d_a / 2, (s_clear + d_a) / 2)",
    "length",
    clause,
    "smaller of the cover to the center of the bar and half the center-to-center spacing",
  );

/** Lesser of clear cover and half the clear spacing: c_min or c_d of the bond models. */
export const lesserClearDistance = (symbol: string, clause: string): Step =>
  step(
    symbol,
    "min(c_cover, s_clear / 2)",
    "length",
    clause,
    "smaller of the clear cover and half the clear spacing",
  );
