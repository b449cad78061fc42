import type { TestColumns } from "../inputs/prepare";
import { VariedRow } from "../inputs/varied-row";
import type { CodeDefinition } from "../model/definition";
import { governing } from "../model/governing";
import { predict } from "../model/predict";
import { codesOf } from "./margin-of-mode";
import { settingsOf, type PlanningSettings } from "./mode-loads";

/** Two numeric columns of a row, each with the values to be looked at, rising. */
export interface MapAxes {
  readonly x: { readonly column: string; readonly values: readonly number[] };
  readonly y: { readonly column: string; readonly values: readonly number[] };
}

/**
 * A short piece of the line on which two modes have the same capacity; `modes` in the order below,
 * above.
 */
export interface BoundaryPiece {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

/** Which mode governs where. */
export interface GoverningMap extends MapAxes {
  /**
   * governing[row][column]: the governing mode at y[row], x[column]; null where nothing applies.
   */
  readonly governing: readonly (readonly (string | null)[])[];
  /** The governing capacity there, N; NaN where nothing applies. */
  readonly capacity: readonly (readonly number[])[];
  /**
   * Places on the lines of the grid where one mode takes over from another, each found to 1e-12 of
   * a cell.
   */
  readonly crossings: readonly {
    readonly x: number;
    readonly y: number;
    readonly modes: readonly [string | null, string | null];
  }[];
  readonly boundaries: readonly BoundaryPiece[];
}

const SECTIONS = 17;

/**
 * Which mode governs one row over two of its numbers, e.g. embedment and concrete strength, with
 * the lines on which one mode takes over from another. Along every line of the grid between two
 * points of different modes, the place of change is bracketed until it is known to 1e-12 of the
 * cell: there the two capacities are equal, or a limit withholds one.
 * @param codes a code, or several whose modes are taken together
 * @throws RangeError for an axis with fewer than two values or values that do not rise
 * @example
 * governingMap(code("aci318-19"), tests, 0, { x: { column: "embedment_mm", values: [60, 80, 100] }, y: { column: "concrete_strength_MPa", values: [20, 30, 40] } })
 */
export function governingMap(
  codes: CodeDefinition | readonly CodeDefinition[],
  tests: TestColumns,
  i: number,
  axes: MapAxes,
  settings: Omit<PlanningSettings, "gripLoad_N"> = {},
): GoverningMap {
  const [xs, ys] = [axes.x, axes.y].map(({ column, values }) => {
    if (values.length < 2 || values.some((value, k) => k > 0 && !(value > (values[k - 1] ?? NaN))))
      throw new RangeError(
        `governingMap: the values of ${column} are ${values.slice(0, 4).join(", ")}…, expected at least two that rise`,
      );
    return values;
  }) as [readonly number[], readonly number[]];
  const at = (x: readonly number[], y: readonly number[]): Governs[] =>
    governs(
      codesOf(codes),
      tests,
      i,
      { [axes.x.column]: Float64Array.from(x), [axes.y.column]: Float64Array.from(y) },
      x.length,
      settings,
    );
  const cells = at(
    ys.flatMap(() => [...xs]),
    ys.flatMap((y) => xs.map(() => y)),
  );
  const cell = (c: number, r: number): Governs => cells[r * xs.length + c] as Governs;
  const edges: Edge[] = [];
  const edgeAt = new Map<string, number>();
  ys.forEach((_, r) =>
    xs.forEach((__, c) => {
      for (const [dc, dr] of [
        [1, 0],
        [0, 1],
      ] as const) {
        if (
          c + dc >= xs.length ||
          r + dr >= ys.length ||
          cell(c, r).mode === cell(c + dc, r + dr).mode
        )
          continue;
        edgeAt.set(`${c},${r},${dc}`, edges.length);
        edges.push({
          from: [xs[c]!, ys[r]!],
          to: [xs[c + dc]!, ys[r + dr]!],
          low: 0,
          high: 1,
          modes: [cell(c, r).mode, cell(c + dc, r + dr).mode],
        });
      }
    }),
  );
  narrow(edges, at);
  const places = edges.map(placeOf);
  const boundaries = ys.slice(1).flatMap((_, r) =>
    xs.slice(1).flatMap((__, c) => {
      const around = [`${c},${r},1`, `${c},${r + 1},1`, `${c},${r},0`, `${c + 1},${r},0`]
        .flatMap((key) => edgeAt.get(key) ?? [])
        .map((k) => places[k]!);
      return joined(around);
    }),
  );
  return {
    ...axes,
    boundaries,
    crossings: edges.map(({ modes }, k) => ({ x: places[k]![0], y: places[k]![1], modes })),
    governing: ys.map((_, r) => xs.map((__, c) => cell(c, r).mode)),
    capacity: ys.map((_, r) => xs.map((__, c) => cell(c, r).capacity)),
  };
}

interface Governs {
  readonly mode: string | null;
  readonly capacity: number;
}

interface Edge {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
  /** Bracket of the first change of mode, as shares of the way. */
  low: number;
  high: number;
  modes: readonly [string | null, string | null];
}

function governs(
  codes: readonly CodeDefinition[],
  tests: TestColumns,
  i: number,
  changes: Readonly<Record<string, Float64Array>>,
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
const placeOf = (edge: Edge): [number, number] => placeOn(edge, (edge.low + edge.high) / 2);

/** Divides all brackets together, so that each pass is one evaluation of columns. */
function narrow(
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

/**
 * The pieces of boundary within one cell: straight between two crossings, a star where more than
 * two modes meet.
 */
function joined(places: readonly (readonly [number, number])[]): BoundaryPiece[] {
  if (places.length < 2) return [];
  if (places.length === 2) return [{ from: places[0]!, to: places[1]! }];
  const middle: [number, number] = [
    places.reduce((sum, [x]) => sum + x, 0) / places.length,
    places.reduce((sum, [, y]) => sum + y, 0) / places.length,
  ];
  return places.map((from) => ({ from, to: middle }));
}
