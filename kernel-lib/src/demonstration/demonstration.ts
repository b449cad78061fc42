import type { Study, TestRowInput } from "../dataset";
import type { TRUTH } from "./truth";

/**
 * The invented campaign: its tests and studies, the truth it came from, and why tests were
 * excluded.
 */
export interface Demonstration {
  readonly seed: number | string;
  readonly tests: ReadonlyArray<TestRowInput>;
  readonly studies: ReadonlyArray<Study>;
  readonly truth: typeof TRUTH;
  /** Factor of each laboratory on the concrete and bond modes, by study_id. */
  readonly studyFactors: Readonly<Record<string, number>>;
  readonly excludedNotes: ReadonlyArray<{ readonly test_id: string; readonly reason: string }>;
}
