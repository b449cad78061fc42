import type { BetterGrip, GripMargins, GripStrengths } from "../../comparison";

/**
 * The answer of `grips` as plain data: grips, margins and broken tests, without the single tests of
 * a grip.
 */
export function gripsJson(
  strengths: GripStrengths,
  { margins }: GripMargins,
  better: BetterGrip,
): object {
  const grips = strengths.groups.map((one) => ({
    by: one.by,
    tests: one.tests.length,
    broke: one.broke,
    n_lower_bounds: one.lowerBounds,
    series: one.series,
    rate: {
      share: one.rate.share,
      lower: one.rate.lower,
      upper: one.rate.upper,
      confidence: one.rate.confidence,
    },
    share_at_break: { lowest: one.lowest, highest: one.highest },
    reached_without_break: one.reached,
    share_above: one.survival.steps
      .filter(({ failures }) => failures > 0)
      .map(({ value, survival, lower, upper }) => ({
        share: value,
        share_above: survival,
        lower,
        upper,
      })),
    law: one.law,
    weibull_fractile: one.weibullFractile,
    reliable: one.reliable,
    reason: one.reason,
    finding: one.reading,
  }));
  return {
    grips,
    not_used: strengths.unused,
    margins: margins.map(({ grip, margin, law, reaches, reason, reading }) => ({
      by: grip.by,
      margin,
      law,
      reaches,
      reason,
      finding: reading,
    })),
    better_grip: { ...better, tests: better.tests.map(({ row: _, ...test }) => test) },
  };
}
