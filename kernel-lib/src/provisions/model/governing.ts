import { testReaches } from "./setup-modes";
import type { CodePrediction } from "./predict";

/** The least applicable capacity of each row and the column it comes from (-1: none applies). */
export interface Governing {
  readonly capacity: Float64Array;
  readonly column: Int32Array;
}

/**
 * The governing capacity of each row: the least among the provisions of the row's action whose mode the test
 * arrangement leaves free.
 */
export function governing(prediction: CodePrediction): Governing {
  const n = prediction.specimens.length;
  const capacity = new Float64Array(n).fill(NaN);
  const column = new Int32Array(n).fill(-1);
  const { tests } = prediction.specimens;
  const actions = tests.texts("action");
  const setups = tests.texts("setup");
  prediction.columns.forEach(({ provision, capacity: capacities }, k) => {
    const allowed = new Map<string | null, boolean>();
    for (let i = 0; i < n; i++) {
      const value = capacities[i] ?? NaN;
      if (Number.isNaN(value) || actions[i] !== provision.action) continue;
      const setup = setups[i] ?? null;
      let free = allowed.get(setup);
      if (free === undefined) allowed.set(setup, (free = testReaches(provision.action, setup, provision)));
      if (free && !(value >= (capacity[i] ?? NaN))) {
        capacity[i] = value;
        column[i] = k;
      }
    }
  });
  return { capacity, column };
}
