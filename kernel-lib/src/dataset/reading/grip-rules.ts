import type { TestTable } from "../table/test-table";
import { diagnostic, type Diagnostic } from "../diagnostics";
import type { SuspicionRule } from "./suspicion-rule";

const show = (value: number): string => String(Number(value.toPrecision(4)));
/** Modes that go with a break or slip in the grip: a bar that slipped there was stopped. */
const BROKE_OR_SLIPPED = ["rupture_at_grip", "stopped", "unknown"];
/**
 * Share of the bar's strength beyond which a stress is not believed; common practice, no source.
 */
const OF_MEASURED = 1.1;
const OF_SPECIFIED = 1.5;

/** What is said of a grip and cannot be true together; limits are common practice, no source. */
export function gripRules(): SuspicionRule[] {
  return [
    {
      name: "grip-break-mode",
      column: "grip_break_stress_MPa",
      expected: "failure_mode rupture_at_grip, or stopped where the bar slipped in the grip",
      finding: (value, text) => {
        const [stress, mode] = [value("grip_break_stress_MPa"), text("failure_mode") ?? ""];
        return Number.isNaN(stress) || BROKE_OR_SLIPPED.includes(mode)
          ? null
          : `a break in the grip at ${show(stress)} MPa is stated, but failure_mode is ${mode}`;
      },
    },
    {
      name: "grip-break-strength",
      column: "grip_break_stress_MPa",
      expected: "at most 1.1 times the measured bar strength, 1.5 times the specified one",
      finding: (value) => {
        const [stress, measured] = [value("grip_break_stress_MPa"), value("bar_strength_MPa")];
        const known = !Number.isNaN(measured);
        const strength = known ? measured : value("bar_strength_specified_MPa");
        const most = known ? OF_MEASURED : OF_SPECIFIED;
        return stress > most * strength
          ? `the bar broke in the grip at ${show(stress)} MPa, ` +
              `${show(stress / strength)} of the ${known ? "measured" : "specified"} bar strength, ` +
              `expected at most ${show(most)}`
          : null;
      },
    },
    {
      name: "grip-break-load",
      column: "grip_break_stress_MPa",
      expected: "the peak load / bar area within 2 % where the bar broke in the grip",
      finding: (value, text) => {
        if (text("failure_mode") !== "rupture_at_grip") return null;
        const bars = (value("group_nx") || 1) * (value("group_ny") || 1);
        const own = (1000 * value("peak_load_kN")) / (bars * value("bar_area_mm2"));
        const stress = value("grip_break_stress_MPa");
        return Math.abs(stress / own - 1) > 0.02
          ? `the bar broke in the grip at ${show(stress)} MPa, but peak load / area is ${show(own)} MPa`
          : null;
      },
    },
    {
      name: "grip-of-action",
      column: "failure_mode",
      expected: "a break in the grip in tension tests only",
      finding: (value, text) =>
        text("action") === "shear" &&
        (text("failure_mode") === "rupture_at_grip" ||
          !Number.isNaN(value("grip_break_stress_MPa")))
          ? "a break in the grip is stated of a test in shear, which holds no bar in a grip"
          : null,
    },
  ];
}

/** One finding a file for bars that broke in a grip nobody named. */
export function unnamedGrips(tests: TestTable): Diagnostic[] {
  const [grips, modes, reasons] = [
    tests.texts("grip"),
    tests.texts("failure_mode"),
    tests.texts("excluded"),
  ];
  const counts = new Map<string, number>();
  for (let i = 0; i < tests.length; i += 1) {
    if (
      modes[i] !== "rupture_at_grip" ||
      (grips[i] ?? null) !== null ||
      (reasons[i] ?? null) !== null
    )
      continue;
    const file = tests.source(i)?.file ?? "";
    counts.set(file, (counts.get(file) ?? 0) + 1);
  }
  return [...counts].map(([file, n]) =>
    diagnostic(
      "information",
      "unnamed-grip",
      `${file}: ${String(n)} ${n === 1 ? "bar" : "bars"} broke in a grip that is not named: fill in grip, so that grips can be compared`,
      { file, column: "grip", value: null, expected: "how the bar was held" },
    ),
  );
}
