import type { Drift, DriftRule } from "./rest-and-drift";

/**
 * The drift to subtract, or null; a clear drift is a flag either way. Clear: more than 3 standard
 * errors, and a share of what it disturbs.
 */
export function driftOf(
  what: string,
  drift: Drift | null,
  rule: DriftRule,
  { share, of, unit }: { share: number; of: number; unit: string },
  flags: string[],
): Drift | null {
  if (drift === null) {
    if (rule !== "none")
      flags.push(
        `the drift of the ${what} cannot be judged: fewer than 20 readings at rest before loading, or no steady ones`,
      );
    return null;
  }
  if (Math.abs(drift.rate) <= 3 * drift.standardError || Math.abs(drift.overRecord) <= share * of)
    return null;
  flags.push(
    `the ${what} drifts by ${drift.overRecord.toPrecision(2)} ${unit} over the record, by ${String(drift.readings)} readings at rest; ${rule === "none" ? "it is left as it is (rule none)" : `it was subtracted (rule ${rule})`}`,
  );
  return rule === "none" ? null : drift;
}
