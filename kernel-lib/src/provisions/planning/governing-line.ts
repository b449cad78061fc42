import type { TestColumns } from "../inputs/prepare";
import type { CodeDefinition } from "../model/definition";
import { governs, narrow, placeOf, type Edge, type Governs } from "./governing-changes";
import { codesOf } from "./margin-of-mode";
import type { PlanningSettings } from "./mode-loads";

/** A stretch of a line along which one mode governs; null where no capacity applies. */
export interface GoverningStretch {
  readonly from: number;
  readonly to: number;
  readonly mode: string | null;
  /** Governing capacity at its two ends, N; NaN where none applies. */
  readonly capacityFrom_N: number;
  readonly capacityTo_N: number;
}

/** Which mode governs along one number of a row. */
export interface GoverningLine {
  readonly column: string;
  readonly values: readonly number[];
  /** The governing capacity at each value, N. */
  readonly capacity: readonly number[];
  readonly governing: readonly (string | null)[];
  /** In order; neighbors differ in their mode. */
  readonly stretches: readonly GoverningStretch[];
}

/**
 * Which mode governs one row along one of its numbers, with the others as they are or as `fixed`
 * states. Where two neighboring values differ in their mode, the first change between them is
 * bracketed until it is known to 1e-12 of their distance. A mode that governs only between two
 * neighboring values of the same mode is not seen: choose the values densely enough.
 * @param fixed other numbers of the row that are held at another value
 * @throws RangeError for fewer than two values, or values that do not rise
 * @example
 * governingLine(code("aci318-19"), tests, 0, { column: "concrete_strength_MPa", values: [20, 40, 60] }, { embedment_mm: 120 }).stretches
 */
export function governingLine(
  codes: CodeDefinition | readonly CodeDefinition[],
  tests: TestColumns,
  i: number,
  { column, values }: { readonly column: string; readonly values: readonly number[] },
  fixed: Readonly<Record<string, number>> = {},
  settings: Omit<PlanningSettings, "gripLoad_N"> = {},
): GoverningLine {
  if (values.length < 2 || values.some((value, k) => k > 0 && !(value > (values[k - 1] ?? NaN))))
    throw new RangeError(
      `governingLine: the values of ${column} are ${values.slice(0, 4).join(", ")}…, expected at least two that rise`,
    );
  const at = (x: readonly number[]): Governs[] =>
    governs(
      codesOf(codes),
      tests,
      i,
      { ...fixed, [column]: Float64Array.from(x) },
      x.length,
      settings,
    );
  const found = at(values);
  let open = values.slice(1).flatMap((to, k) => {
    const modes = [found[k]!.mode, found[k + 1]!.mode] as const;
    return modes[0] === modes[1] ? [] : [edge(values[k]!, to, modes)];
  });
  const changes: Edge[] = [];
  // A third mode may govern between two values: what is left of the way is looked at again.
  while (open.length > 0) {
    const ends = open.map(({ modes }) => modes[1]);
    narrow(open, (x) => at(x));
    changes.push(...open);
    open = open.flatMap((one, k) => {
      const next = one.from[0] + one.high * (one.to[0] - one.from[0]);
      return one.modes[1] === ends[k] || !(next < one.to[0])
        ? []
        : [edge(next, one.to[0], [one.modes[1], ends[k]!])];
    });
  }
  changes.sort((a, b) => placeOf(a)[0] - placeOf(b)[0]);
  const places = changes.map((one) => placeOf(one)[0]);
  const ends = [values[0]!, ...places, values.at(-1)!];
  const modes = [found[0]!.mode, ...changes.map(({ modes: [, beyond] }) => beyond)];
  const atPlaces = places.length === 0 ? [] : at(places);
  const capacityAt = [found[0]!, ...atPlaces, found.at(-1)!].map(({ capacity }) => capacity);
  return {
    column,
    values,
    capacity: found.map(({ capacity }) => capacity),
    governing: found.map(({ mode }) => mode),
    stretches: modes.map((mode, k) => ({
      from: ends[k]!,
      to: ends[k + 1]!,
      mode,
      capacityFrom_N: capacityAt[k]!,
      capacityTo_N: capacityAt[k + 1]!,
    })),
  };
}

const edge = (from: number, to: number, modes: Edge["modes"]): Edge => ({
  from: [from, 0],
  to: [to, 0],
  low: 0,
  high: 1,
  modes,
});
