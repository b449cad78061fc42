import type { TestTable } from "../../dataset";

/**
 * Bar stress at the peak load of each row, MPa: peak load / (bars x bar area); NaN where unknown.
 */
export function peakStress(tests: TestTable): (row: number) => number {
  const [loads, areas] = [tests.numbers("peak_load_kN"), tests.numbers("bar_area_mm2")];
  const [nx, ny] = [tests.numbers("group_nx"), tests.numbers("group_ny")];
  // A blank count is one bar.
  return (row) => (1000 * loads[row]!) / ((nx[row] || 1) * (ny[row] || 1) * areas[row]!);
}

/**
 * Whether a bar broke or slipped in its grip: `rupture_at_grip`, or a test that was stopped or
 * whose mode is unknown with a stated `grip_break_stress_MPa`.
 * @param statedStress MPa; NaN where blank
 */
export function brokeInGrip(mode: string | null, statedStress: number): boolean {
  const slipped = mode === "stopped" || mode === "unknown";
  return mode === "rupture_at_grip" || (slipped && !Number.isNaN(statedStress));
}
