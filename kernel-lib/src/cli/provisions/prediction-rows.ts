import type { TestTable } from "../../dataset";
import { clauseOf, governing, predict, reasonsAt, restsOnFinder, testReaches, trace, traceToJson, type CodeDefinition, type PredictionSettings, type TraceValue } from "../../provisions";

/** One capacity of one test: the answer of `predict`. */
export interface PredictionRow {
  readonly test_id: string;
  readonly code: string;
  readonly clause: string;
  readonly mode: string;
  readonly level: string;
  /** kN; null where withheld. */
  readonly capacity_kN: number | null;
  readonly applies: boolean;
  readonly governs: boolean;
  readonly reasons: readonly string[];
  /** What the capacity rests on that the row does not state. */
  readonly rests_on: readonly string[];
  readonly steps?: readonly TraceValue[];
}

export interface RowChoices {
  /** Also capacities of the action that the test did not have. */
  readonly everyAction: boolean;
  readonly steps: boolean;
}

/** The capacities of a code for some rows of a table (all by default), test by test in the order of the code's provisions. */
export function predictionRows(code: CodeDefinition, tests: TestTable, settings: PredictionSettings, choices: RowChoices, only?: number): PredictionRow[] {
  const prediction = predict(code, tests, settings);
  const least = governing(prediction);
  const [ids, actions, setups] = [tests.texts("test_id"), tests.texts("action"), tests.texts("setup")];
  const rows: PredictionRow[] = [];
  const restsOn = prediction.columns.map((column) => restsOnFinder(prediction, column));
  for (let i = only ?? 0; i < (only === undefined ? tests.length : only + 1); i++) {
    prediction.columns.forEach((column, k) => {
      const { provision } = column;
      if (!choices.everyAction && provision.action !== actions[i]) return;
      const capacity = column.capacity[i] ?? NaN;
      const applies = !Number.isNaN(capacity);
      const reasons = reasonsAt(prediction, column, i).map(({ clause, says }) => `${clause}: ${says}`);
      const free = testReaches(actions[i] ?? null, setups[i] ?? null, provision);
      if (applies && !free) reasons.push(`setup: a test of ${actions[i] ?? "unknown action"} by ${setups[i] ?? "an unknown setup"} cannot fail in this mode, so it does not govern`);
      rows.push({
        test_id: ids[i] ?? "", code: code.id, clause: clauseOf(provision.id), mode: provision.modes[0], level: prediction.level,
        capacity_kN: applies ? capacity / 1000 : null, applies, governs: least.column[i] === k, reasons, rests_on: restsOn[k]?.(i) ?? [],
        ...(choices.steps ? { steps: traceToJson(trace(code, provision, tests, i, settings)) } : {}),
      });
    });
  }
  return rows;
}
