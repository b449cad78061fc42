import type { Comparison, RatioGroup } from "../../comparison";
import { calibrateEn1990 } from "./calibrate";
import type { Calibration, CalibrationInput } from "./calibration";

/** The variables in which a trend of the correction is looked for. */
export const TREND_VARIABLES = [
  "bar_diameter_mm",
  "embedment_mm",
  "concrete_strength_MPa",
] as const;

/**
 * Groups of a comparison calibrated to EN 1990 Annex D.8: the peak load is r_e, the capacity r_t.
 * A variable that is blank in every test of a group is not looked at.
 * @example calibrateGroups(comparison, groups, { budget: variationOfProduct([]) }).map(({ reading }) => reading)
 */
export function calibrateGroups(
  { tests }: Comparison,
  groups: readonly RatioGroup[],
  settings: Pick<CalibrationInput, "budget" | "treatmentOfLowerBounds">,
): Calibration[] {
  const series = tests.texts("series_id");
  return groups.map(({ label, evidence }) => {
    const columns = TREND_VARIABLES.map(
      (name) => [name, evidence.map(({ row }) => tests.number(row, name))] as const,
    );
    return calibrateEn1990({
      ...settings,
      label,
      experimental: evidence.map(({ load }) => load),
      theoretical: evidence.map(({ capacity }) => capacity),
      lowerBounds: evidence.map(({ bound }) => bound),
      series: evidence.map(({ row }) => series[row] ?? ""),
      variables: Object.fromEntries(
        columns.filter(([, values]) => values.some((value) => !Number.isNaN(value))),
      ),
    });
  });
}
