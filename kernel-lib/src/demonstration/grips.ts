import type { Grip, TestRowInput } from "../dataset";
import type { createRandom } from "../statistics/random";
import type { PlannedSeries } from "./campaign";
import { TRUTH, type TrueMode } from "./truth";

/**
 * The grip of a series; null in shear, where no bar is gripped. It follows from the plan alone,
 * never from an outcome: FRP bars are held by wedges where a poor grip is planned or every other
 * mode is planned to stay far below the bar's strength.
 * @param means mean capacity in N of every mode that can occur in the series
 */
export function gripOfSeries(
  series: PlannedSeries,
  means: ReadonlyMap<TrueMode, number>,
  random: ReturnType<typeof createRandom>,
): Grip | null {
  const { breaking, wedgesUpTo, others, steel } = TRUTH.grips;
  if (series.setup === "direct_shear") return null;
  if (TRUTH.barKinds[series.kind]?.material === "steel") return random.choice(steel);
  const rupture = means.get("bar_rupture") ?? NaN;
  const least = Math.min(
    ...[...means].flatMap(([mode, mean]) => (mode === "rupture_at_grip" ? [] : [mean])),
  );
  return series.poorGrip || least < wedgesUpTo * rupture ? breaking : random.choice(others);
}

/**
 * The row with its grip; the laboratory at the North Mole writes down the stress of a break in it,
 * the other leaves it to be derived.
 */
export function withGrip(test: TestRowInput, grip: Grip | null): TestRowInput {
  if (test.failure_mode !== "rupture_at_grip" || !test.test_id.startsWith("NM"))
    return { ...test, grip };
  const bars = (test.group_nx ?? 1) * (test.group_ny ?? 1);
  return {
    ...test,
    grip,
    grip_break_stress_MPa: Math.round(
      (1000 * test.peak_load_kN) / (bars * (test.bar_area_mm2 ?? NaN)),
    ),
  };
}
