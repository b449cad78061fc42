import type { TestRowInput } from "../dataset";
import type { Random } from "../statistics/random";

/** Invented mishaps, each with what it does to the recorded load. */
const MISHAPS: ReadonlyArray<{
  readonly reason: string;
  readonly factor: number;
  readonly tensionOnly: boolean;
}> = [
  { reason: "drill hole was not cleaned", factor: 0.55, tensionOnly: true },
  { reason: "load cell drifted during the test", factor: 1.2, tensionOnly: false },
  {
    reason: "adhesive was still soft: tested before its curing time",
    factor: 0.5,
    tensionOnly: true,
  },
  { reason: "the concrete had a crack that was not planned", factor: 0.75, tensionOnly: false },
  { reason: "the bar leaned by more than 5 degrees", factor: 0.85, tensionOnly: false },
  { reason: "the support stood within the expected breakout", factor: 1.25, tensionOnly: false },
  { reason: "loading was halted for an hour by a pump failure", factor: 0.95, tensionOnly: false },
  { reason: "peak read from the dial only; the record was lost", factor: 1, tensionOnly: false },
];

/** Lets each mishap befall one test, changing its load and naming the reason. */
export function exclude(
  tests: TestRowInput[],
  random: Random,
): Array<{ test_id: string; reason: string }> {
  const notes: Array<{ test_id: string; reason: string }> = [];
  for (const { reason, factor, tensionOnly } of MISHAPS) {
    for (;;) {
      const i = random.integer(tests.length);
      const test = tests[i];
      if (
        test === undefined ||
        (test.excluded ?? null) !== null ||
        (tensionOnly && (test.action !== "tension" || test.installation !== "post_installed"))
      )
        continue;
      tests[i] = {
        ...test,
        peak_load_kN: Math.round(10 * factor * test.peak_load_kN) / 10,
        excluded: reason,
      };
      notes.push({ test_id: test.test_id, reason });
      break;
    }
  }
  return notes;
}
