import type { TestColumns } from "../inputs/prepare";
import type { CodeDefinition } from "../model/definition";
import { governs, narrow, placeOf, type Edge, type Governs } from "./governing-changes";
import { codesOf } from "./margin-of-mode";
import type { PlanningSettings } from "./mode-loads";

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
