import type { ProvisionDefinition } from "./definition";
import { testReaches } from "./setup-modes";
import { compile } from "../../formula";
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
  leastOf(reached.map(({ k }) => k))(n, reached.map(({ capacity }) => capacity), least.capacity, least.column);
  return least;
}

type LeastLoop = (n: number, columns: readonly Float64Array[], capacity: Float64Array, column: Int32Array) => void;

/** One pass over all capacities that every row reaches; written out, since a loop over arrays in an array costs three times as much. */
function leastOf(numbers: readonly number[]): LeastLoop {
  const heads = numbers.map((_, c) => `const c${c} = columns[${c}];`);
  const steps = numbers.map((k, c) => `v = c${c}[i]; if (v < least || (least !== least && v === v)) { least = v; from = ${k}; }`);
  return compile<LeastLoop>(["n", "columns", "capacity", "column"], `${heads.join("\n")}\nfor (let i = 0; i < n; i++) {\nlet least = NaN, from = -1, v = 0;\n${steps.join("\n")}\ncapacity[i] = least;\ncolumn[i] = from;\n}`);
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
