import type { ProvisionDefinition } from "./definition";
import { testReaches } from "./setup-modes";
import type { CodePrediction } from "./predict";

/** The least applicable capacity of each row and the column it comes from (-1: none applies). */
export interface Governing {
  readonly capacity: Float64Array;
  readonly column: Int32Array;
}

/**
 * The governing capacity of each row: the least among the provisions of the row's action whose mode
 * the test arrangement leaves free.
 */
export function governing({ specimens, columns }: CodePrediction): Governing {
  const { tests, length: n } = specimens;
  const least = { capacity: new Float64Array(n).fill(NaN), column: new Int32Array(n).fill(-1) };
  const [action, setup] = [specimens.soleWord("action"), specimens.soleWord("setup")];
  const alike = action !== undefined && setup !== undefined;
  columns.forEach(({ provision, capacity }, k) => {
    if (!alike)
      return takeLess(
        capacity,
        k,
        least,
        reached(provision, tests.texts("action"), tests.texts("setup")),
      );
    if (testReaches(action, setup, provision)) takeLess(capacity, k, least, null);
  });
  return least;
}

/**
 * Whether the test of a row can show the provision's mode; each test arrangement is evaluated once.
 */
function reached(
  provision: ProvisionDefinition,
  actions: Words,
  setups: Words,
): (i: number) => boolean {
  const known = new Map<string | null, boolean>();
  return (i) => {
    if (actions[i] !== provision.action) return false;
    const setup = setups[i] ?? null;
    const found = known.get(setup) ?? testReaches(provision.action, setup, provision);
    known.set(setup, found);
    return found;
  };
}

/** Keeps a capacity where it is less than the least so far; a missing one (NaN) is never less. */
function takeLess(
  capacities: Float64Array,
  k: number,
  { capacity, column }: Governing,
  isReached: ((i: number) => boolean) | null,
): void {
  for (let i = 0; i < capacities.length; i++) {
    const value = capacities[i]!;
    if (value !== value || value >= capacity[i]! || (isReached && !isReached(i))) continue;
    capacity[i] = value;
    column[i] = k;
  }
}

type Words = ReadonlyArray<string | null>;
