import type { ProvisionDefinition } from "./definition";
import { testReaches } from "./setup-modes";
import { compileColumns, parseFormula, type ColumnRun } from "../../formula";
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
  const [action, setup] = [specimens.soleWord("action"), specimens.soleWord("setup")];
  if (action === undefined || setup === undefined) {
    const least = { capacity: new Float64Array(n).fill(NaN), column: new Int32Array(n).fill(-1) };
    prediction.columns.forEach(({ provision, capacity }, k) => takeWhereReached(provision, tests.texts("action"), tests.texts("setup"), capacity, k, least));
    return least;
  }
  const least = { capacity: new Float64Array(n), column: new Int32Array(n) };
  const reached = prediction.columns.map(({ provision, capacity }, k) => ({ provision, capacity, k })).filter(({ provision }) => testReaches(action, setup, provision));
  if (reached.length === 0) return { capacity: least.capacity.fill(NaN), column: least.column.fill(-1) };
  leastOf(reached.map(({ k }) => k), n)(n, reached.map(({ capacity }) => capacity), [least.capacity, least.column]);
  return least;
}

/** One pass over all capacities that every row reaches. */
function leastOf(numbers: readonly number[], n: number): ColumnRun {
  const columns = numbers.map((k) => `v${k}`);
  const lines = numbers.flatMap((k, c) => {
    if (c === 0) return [{ name: "least0", value: `v${k}` }, { name: "from0", value: `if(v${k} == v${k}, ${k}, 0 - 1)` }];
    const before = `least${c - 1}`;
    // Nothing is below a missing capacity, and a missing one is below nothing.
    return [
      { name: `lower${c}`, value: `v${k} < ${before} || (${before} != ${before} && v${k} == v${k})` },
      { name: `least${c}`, value: `if(lower${c}, v${k}, ${before})` },
      { name: `from${c}`, value: `if(lower${c}, ${k}, from${c - 1})` },
    ];
  }).map(({ name, value }) => ({ name, value: parseFormula(value) }));
  const outputs = [{ kind: "number", value: parseFormula(`least${numbers.length - 1}`) }, { kind: "integer", value: parseFormula(`from${numbers.length - 1}`) }] as const;
  return compileColumns({ columns, lines: [], parts: [{ lines, outputs }] }, n);
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
