import type { TestColumns } from "../inputs/prepare";
import type { Changes } from "../inputs/varied-row";
import type { CodeDefinition } from "../model/definition";
import type { FailureMode } from "../model/levels";
import { modeLoads, type ModeLoad, type PlanningSettings } from "./mode-loads";

/** By how much every other end of a test lies above the mode wanted, for each repeat of a row. */
export interface ModeMargins {
  readonly mode: FailureMode;
  /** Load of the wanted mode, N; NaN where no provision gives it. */
  readonly wanted: Float64Array;
  /** Least load of all others, N; infinite where there is none. */
  readonly rival: Float64Array;
  /** Index of that other in `rivals`; -1 where there is none. */
  readonly rivalIndex: Int32Array;
  /**
   * rival / wanted - 1: 0.25 where everything else lies at least 25 % above; negative where another
   * mode comes first.
   */
  readonly margin: Float64Array;
  readonly wantedLoads: readonly ModeLoad[];
  readonly rivals: readonly ModeLoad[];
  /**
   * Modes that could not be judged because a value is missing: the margin knows nothing of them.
   */
  readonly unjudged: readonly string[];
}

/**
 * Margins of a wanted failure mode over all others for one row repeated `n` times with changed
 * numbers, e.g. draws of material strengths or a line of embedments. Loads are point predictions: a
 * margin is no probability.
 * @param codes a code, or several whose modes are taken together (a mean model of each mode, say)
 * @param changes columns of the data contract with one value, or one for each of the `n` repeats
 * @throws Error for an option that none of the codes offers; RangeError for changes of another
 *   length
 * @example
 * modeMargins(code("aci318-19"), tests, 0, "bond", { concrete_strength_MPa: draws }, draws.length).margin
 */
export function modeMargins(
  codes: CodeDefinition | readonly CodeDefinition[],
  tests: TestColumns,
  i: number,
  mode: FailureMode,
  changes: Changes,
  n: number,
  settings: PlanningSettings = {},
): ModeMargins {
  const several = codesOf(codes);
  for (const name of Object.keys(settings.options ?? {}))
    if (!several.some((code) => Object.hasOwn(code.options, name)))
      throw new Error(
        `None of ${several.map(({ id }) => id).join(", ")} offers an option "${name}".`,
      );
  const { loads, unjudged } = modeLoads(several, tests, i, changes, n, settings);
  const named = loads.filter((load) => load.mode === mode);
  const wantedLoads = named.length > 0 ? named : loads.filter(({ modes }) => modes.includes(mode));
  // A steel bar that is to break has to yield before.
  const rivals = loads.filter(
    (load) => !wantedLoads.includes(load) && !(mode === "bar_rupture" && load.mode === "yield"),
  );
  const [wanted, rival, margin] = [
    new Float64Array(n).fill(NaN),
    new Float64Array(n).fill(Infinity),
    new Float64Array(n),
  ];
  const rivalIndex = new Int32Array(n).fill(-1);
  for (let k = 0; k < n; k++) {
    for (const { load } of wantedLoads)
      if (!(load[k]! >= wanted[k]!) && !Number.isNaN(load[k])) wanted[k] = load[k]!;
    rivals.forEach(({ load }, r) => {
      if (load[k]! < rival[k]!) [rival[k], rivalIndex[k]] = [load[k]!, r];
    });
    margin[k] = rival[k]! / wanted[k]! - 1;
  }
  return { mode, wanted, rival, rivalIndex, margin, wantedLoads, rivals, unjudged };
}

/** One code or several as a list. @throws Error for an empty list */
export function codesOf(
  codes: CodeDefinition | readonly CodeDefinition[],
): readonly CodeDefinition[] {
  const several = "provisions" in codes ? [codes] : codes;
  if (several.length === 0) throw new Error("No code is given, expected one or several.");
  return several;
}
