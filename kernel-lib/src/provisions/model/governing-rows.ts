import { governing } from "./governing";
import { interactionAt, interactionRule } from "./interaction";
import type { FailureMode } from "./levels";
import { MISSING } from "./loop-plan";
import type { CodePrediction, ProvisionColumn } from "./predict";
import { clauseOf, reasonsAt } from "./reasons";
import { testReaches } from "./setup-modes";

/** Which capacity governs one row of a prediction. */
export interface GoverningRow {
  readonly row: number;
  /** Id of the provision; of a test with both loads none, but the clause of the interaction. */
  readonly provision: string | null;
  readonly clause: string | null;
  readonly mode: FailureMode | "interaction" | null;
  /** kN; null where nothing applies. */
  readonly capacity_kN: number | null;
  /**
   * Modes that the test can reach and that lack an input: the governing capacity knows nothing of
   * them.
   */
  readonly missing: readonly string[];
  /** Limits of the governing provision that the row exceeds and that are only reported. */
  readonly outside: readonly string[];
  /** Why nothing governs; empty where something does. */
  readonly reason: string;
}

/**
 * The governing capacity of each row, with the modes that could not be evaluated for want of an
 * input; of a test with tension and shear the resultant at which the interaction is met.
 * @example governingRows(predict(code("aci318-19"), tests)).map(({ mode, capacity_kN }) => [mode, capacity_kN])
 */
export function governingRows(prediction: CodePrediction): GoverningRow[] {
  const { code, columns, specimens, settings } = prediction;
  const { tests } = specimens;
  const least = governing(prediction);
  const [actions, setups] = [tests.texts("action"), tests.texts("setup")];
  return Array.from({ length: specimens.length }, (_, row): GoverningRow => {
    const [action, setup] = [actions[row] ?? null, setups[row] ?? null];
    if (action === "tension_and_shear") {
      const found = interactionAt(prediction, row);
      const capacity = found?.governing ? found.capacity / 1000 : NaN;
      const applies = !Number.isNaN(capacity);
      return {
        row,
        provision: null,
        clause: interactionRule(code, settings)?.clause ?? null,
        mode: applies ? "interaction" : null,
        capacity_kN: applies ? capacity : null,
        missing: [...(found?.unchecked ?? [])],
        outside: [],
        reason: applies
          ? ""
          : `no resultant: ${found?.without.length ? `no capacity in ${found.without.join(" and in ")}` : "no interaction or no load angle is stated"}`,
      };
    }
    const reached = columns.filter(({ provision }) => testReaches(action, setup, provision));
    const withheld = reached.filter(({ capacity }) => Number.isNaN(capacity[row]));
    const missing = withheld.flatMap((column) => {
      const lacks = lacking(prediction, column, row);
      const { modes, id } = column.provision;
      return lacks.length === 0
        ? []
        : [`${words(modes[0])} (${clauseOf(id)}): ${lacks.join("; ")}`];
    });
    const one = columns[least.column[row] ?? -1];
    const governs = one?.provision;
    if (one && governs)
      return {
        row,
        provision: governs.id,
        clause: clauseOf(governs.id),
        mode: governs.modes[0],
        capacity_kN: (least.capacity[row] ?? NaN) / 1000,
        missing,
        outside: reasonsAt(prediction, one, row).map(({ clause, says }) => `${clause}: ${says}`),
        reason: "",
      };
    const why = withheld.flatMap((column) =>
      reasonsAt(prediction, column, row).map(({ clause, says }) => `${clause}: ${says}`),
    );
    return {
      row,
      provision: null,
      clause: null,
      mode: null,
      capacity_kN: null,
      missing,
      outside: [],
      reason:
        reached.length === 0
          ? `${code.id} states no capacity at the ${prediction.level} level for a test in ${words(action ?? "an unstated action")} by ${words(setup ?? "an unstated set-up")}`
          : [...new Set(why)].join("; "),
    };
  });
}

/**
 * What a withheld capacity lacks, where nothing but inputs keeps it from being evaluated; empty for
 * one that a limit withholds.
 */
export function lacking(
  prediction: CodePrediction,
  column: ProvisionColumn,
  row: number,
): string[] {
  if (((column.flags[row] ?? 0) & MISSING) === 0) return [];
  const reasons = reasonsAt(prediction, column, row);
  return reasons.every(({ kind }) => kind === "missing") ? reasons.map(({ says }) => says) : [];
}

const words = (name: string): string => name.replaceAll("_", " ");
