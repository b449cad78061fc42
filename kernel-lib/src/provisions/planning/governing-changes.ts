import type { TestColumns } from "../inputs/prepare";
import { VariedRow, type Changes } from "../inputs/varied-row";
import type { CodeDefinition } from "../model/definition";
import { governing } from "../model/governing";
import { predict } from "../model/predict";
import { settingsOf, type PlanningSettings } from "./mode-loads";

const SECTIONS = 17;

/** The governing mode of a row with some numbers changed, and its capacity, N. */
export interface Governs {
  readonly mode: string | null;
  readonly capacity: number;
}

/** A way between two places of different governing modes. */
export interface Edge {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Bracket of the first change of mode, as shares of the way. */
  low: number;
  high: number;
  modes: readonly [string | null, string | null];
}

/** The governing mode of one row repeated `n` times with changes, over all codes together. */
export function governs(
  codes: readonly CodeDefinition[],
  tests: TestColumns,
  i: number,
  changes: Changes,
  n: number,
  settings: PlanningSettings,
): Governs[] {
  const found: Governs[] = Array.from({ length: n }, () => ({ mode: null, capacity: NaN }));
  for (const code of codes) {
    const prediction = predict(
      code,
      new VariedRow(tests, i, changes, n),
      settingsOf(code, settings),
    );
    const least = governing(prediction);
    for (let k = 0; k < n; k++)
      if (least.capacity[k]! < (found[k]!.capacity || Infinity))
        found[k] = {
          mode: prediction.columns[least.column[k]!]?.provision.modes[0] ?? null,
          capacity: least.capacity[k]!,
        };
  }
  return found;
}

const placeOn = ({ from, to }: Edge, share: number): [number, number] => [
  from[0] + share * (to[0] - from[0]),
  from[1] + share * (to[1] - from[1]),
];
/** The place of the change on the way. */
export const placeOf = (edge: Edge): [number, number] => placeOn(edge, (edge.low + edge.high) / 2);

/** Divides all brackets together, so that each pass is one evaluation of columns. */
export function narrow(
  edges: readonly Edge[],
  at: (x: readonly number[], y: readonly number[]) => Governs[],
): void {
  while (edges.some(({ low, high }) => high - low > 1e-12)) {
    const shares = edges.map(({ low, high }) =>
      Array.from({ length: SECTIONS - 1 }, (_, k) => low + ((high - low) * (k + 1)) / SECTIONS),
    );
    const places = edges.flatMap((edge, e) => shares[e]!.map((share) => placeOn(edge, share)));
    const found = at(
      places.map(([x]) => x),
      places.map(([, y]) => y),
    );
    edges.forEach((edge, e) => {
      const own = found.slice(e * (SECTIONS - 1), (e + 1) * (SECTIONS - 1));
      const first = own.findIndex(({ mode }) => mode !== edge.modes[0]);
      const { low, high } = edge;
      if (first > 0) edge.low = shares[e]![first - 1]!;
      else if (first < 0) edge.low = shares[e]!.at(-1) ?? low;
      if (first < 0) return;
      edge.high = shares[e]![first] ?? high;
      edge.modes = [edge.modes[0], own[first]!.mode];
    });
  }
}
