import type { TestTable } from "../dataset";
import { setupAllows, type CodePrediction, type FailureMode } from "../provisions";
import { evidenceOf, type LowerBoundRule } from "./lower-bound-rule";
import type { PairStatus, ScopeRule } from "./scope";

/** The mode of a ratio; tension and shear at once have one of their own. */
export type RatioMode = FailureMode | "interaction";

/** Columns of the prediction whose capacities an interaction joins. */
export interface Components {
  readonly tension: number;
  readonly shear: number;
}

/** A test and one of its modes: the provision taken for the mode, its capacity and its status. */
export interface Pair {
  /** Column of the prediction; -1 for an interaction, which belongs to no single provision. */
  readonly column: number;
  readonly mode: RatioMode;
  /** Of an interaction with a capacity. */
  readonly components?: Components;
  /** kN; NaN where there is none. */
  readonly capacity: number;
  readonly bound: boolean;
  readonly status: PairStatus;
  /**
   * False where the arrangement cannot show the mode: such a pair is never a ratio, in no scope.
   */
  readonly free: boolean;
}

/**
 * The pairs of one test, one for each mode it tells something of.
 *
 * Of several provisions of one mode (an edge each) the least capacity is taken, among those that
 * the set-up tests if it tests any; the others are the same test and mode, and are not counted.
 * Where none has a capacity, the one that lacks least says why. A test that is not judged in the
 * mode it failed in bounds no other mode either, for the same reason: it is no test of this code.
 */
export function pairsOfTest(
  prediction: CodePrediction,
  tests: TestTable,
  rule: ScopeRule,
  lowerBounds: LowerBoundRule,
  row: number,
): readonly Pair[] {
  const [action, setup, observed] = [
    tests.text(row, "action"),
    tests.text(row, "setup"),
    tests.text(row, "failure_mode"),
  ];
  const best = new Map<RatioMode, Pair>();
  prediction.columns.forEach(({ provision, capacity }, column) => {
    if (provision.action !== action) return;
    const tells = evidenceOf(observed, provision.modes, lowerBounds);
    if (tells === "nothing") return;
    const free = provision.modes.some((mode) => setupAllows(setup, mode));
    if (!free && tells !== "value") return;
    const pair: Pair = {
      column,
      mode: provision.modes[0],
      capacity: (capacity[row] ?? NaN) / 1000,
      bound: tells === "lower bound",
      status: rule.at(row, column, tells === "value"),
      free,
    };
    const known = best.get(pair.mode);
    if (!known || precedes(pair, known)) best.set(pair.mode, pair);
  });
  const pairs = [...best.values()];
  const own = pairs.filter(({ bound }) => !bound);
  const refused = own.every(({ status }) => status.status !== "judged")
    ? own[0]?.status
    : undefined;
  return refused ? pairs.map((pair) => (pair.bound ? { ...pair, status: refused } : pair)) : pairs;
}

function precedes(a: Pair, b: Pair): boolean {
  const [hasA, hasB] = [!Number.isNaN(a.capacity) && a.free, !Number.isNaN(b.capacity) && b.free];
  if (hasA !== hasB) return hasA;
  if (!hasA) return a.status.rank < b.status.rank;
  const [testedA, testedB] = [a, b].map(
    ({ status }) => status.status !== "set-up does not test this",
  );
  return testedA === testedB ? a.capacity < b.capacity : (testedA ?? false);
}
