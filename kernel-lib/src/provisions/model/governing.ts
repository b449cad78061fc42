import type { ProvisionDefinition } from "./definition";
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
  const { specimens } = prediction;
  const { tests, length: n } = specimens;
  const least = { capacity: new Float64Array(n).fill(NaN), column: new Int32Array(n).fill(-1) };
  const [action, setup] = [specimens.soleWord("action"), specimens.soleWord("setup")];
  if (action === undefined || setup === undefined) {
    prediction.columns.forEach(({ provision, capacity }, k) => takeWhereReached(provision, tests.texts("action"), tests.texts("setup"), capacity, k, least));
    return least;
  }
  const reached = prediction.columns.map(({ provision, capacity }, k) => ({ provision, capacity, k })).filter(({ provision }) => testReaches(action, setup, provision));
  for (let start = 0; start < n; start += BLOCK) for (const { capacity, k } of reached) takeLess(capacity, k, least, start, Math.min(n, start + BLOCK));
  return least;
}

/** Rows compared at a time, so that all columns of a block stay near the processor. */
const BLOCK = 4096;

/** Every row reaches this capacity: it takes the place of a larger or missing one. */
function takeLess(capacities: Float64Array, k: number, { capacity, column }: Governing, start: number, end: number): void {
  for (let i = start; i < end; i++) {
    const value = capacities[i]!;
    const before = capacity[i]!;
    if (value < before || (before !== before && value === value)) {
      capacity[i] = value;
      column[i] = k;
    }
  }
}

function takeWhereReached(provision: ProvisionDefinition, actions: ReadonlyArray<string | null>, setups: ReadonlyArray<string | null>, capacities: Float64Array, k: number, { capacity, column }: Governing): void {
  const allowed = new Map<string | null, boolean>();
  for (let i = 0; i < capacities.length; i++) {
    const value = capacities[i]!;
    if (Number.isNaN(value) || actions[i] !== provision.action) continue;
    const setup = setups[i] ?? null;
    let free = allowed.get(setup);
    if (free === undefined) allowed.set(setup, (free = testReaches(provision.action, setup, provision)));
    if (free && !(value >= (capacity[i] ?? NaN))) {
      capacity[i] = value;
      column[i] = k;
    }
  }
}
