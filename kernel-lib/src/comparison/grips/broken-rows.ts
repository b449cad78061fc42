import type { TestTable } from "../../dataset";
import { brokeInGrip, peakStress } from "./bar-stress";

/**
 * Rows that broke in the grip with their share of bar strength at the peak load; NaN if unknown.
 */
export function brokenRows(tests: TestTable): ReadonlyMap<number, number> {
  const [stated, strengths] = [
    tests.numbers("grip_break_stress_MPa"),
    tests.numbers("bar_strength_MPa"),
  ];
  const [modes, actions, reasons] = [
    tests.texts("failure_mode"),
    tests.texts("action"),
    tests.texts("excluded"),
  ];
  const stress = peakStress(tests);
  const rows = Array.from({ length: tests.length }, (_, row) => row).filter(
    (row) =>
      (reasons[row] ?? null) === null &&
      actions[row] === "tension" &&
      brokeInGrip(modes[row] ?? null, stated[row]!),
  );
  return new Map(rows.map((row) => [row, stress(row) / strengths[row]!]));
}
