import type { Comparison, Evidence } from "./comparison";

/**
 * The evidence of a comparison with every test once: in the mode it failed in; where the code gives
 * no ratio in that mode, as a lower bound of the mode with the least capacity among those it
 * bounds. Groups that do not name the mode rest on it.
 * @example onePerTest(comparison).length // tests, not pairs
 */
export function onePerTest({
  tests,
  evidence,
}: Pick<Comparison, "tests" | "evidence">): Evidence[] {
  const observed = tests.texts("failure_mode");
  const chosen = new Map<number, Evidence>();
  for (const one of evidence) {
    const known = chosen.get(one.row);
    if (!known || comesBefore(one, known, observed[one.row] ?? null)) chosen.set(one.row, one);
  }
  return [...chosen.values()];
}

/**
 * Whether one ratio of a test stands for it rather than another: failures first, then the observed
 * mode, then the least capacity.
 */
export function comesBefore(one: Evidence, other: Evidence, observed: string | null): boolean {
  if (one.bound !== other.bound) return !one.bound;
  if ((one.mode === observed) !== (other.mode === observed)) return one.mode === observed;
  return one.capacity < other.capacity;
}
