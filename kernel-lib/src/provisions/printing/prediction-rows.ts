import type { TestTable } from "../../dataset";
import { governing } from "../model/governing";
import type { CodeDefinition } from "../model/definition";
import { lacking } from "../model/governing-rows";
import { interactionAt, interactionRule } from "../model/interaction";
import { interactionRestsOn, interactionTrace } from "../model/interaction-trace";
import { predict, type CodePrediction, type PredictionSettings } from "../model/predict";
import { clauseOf, reasonsAt } from "../model/reasons";
import { restsOnFinder } from "../model/rests-on";
import { hasLoad, setupAllows } from "../model/setup-modes";
import { trace } from "../model/trace";
import { interactionSentence } from "./governing-sentence";
import { traceToJson, type TraceValue } from "./show-trace";

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
  /** Leaves out what a limit withholds, such as a clause for another kind of anchor. */
  readonly concernedOnly?: boolean;
}

/**
 * The capacities of a code for some rows of a table (all by default), test by test in the order of
 * the code's provisions.
 */
export function predictionRows(
  code: CodeDefinition,
  tests: TestTable,
  settings: PredictionSettings,
  choices: RowChoices,
  only?: number,
): PredictionRow[] {
  const prediction = predict(code, tests, settings);
  const least = governing(prediction);
  const [ids, actions, setups] = [
    tests.texts("test_id"),
    tests.texts("action"),
    tests.texts("setup"),
  ];
  const rows: PredictionRow[] = [];
  const restsOn = prediction.columns.map((column) => restsOnFinder(prediction, column));
  for (let i = only ?? 0; i < (only === undefined ? tests.length : only + 1); i++) {
    const joint = interactionAt(prediction, i)?.governing ?? null;
    prediction.columns.forEach((column, k) => {
      const { provision } = column;
      if (!choices.everyAction && !hasLoad(actions[i] ?? null, provision.action)) return;
      const capacity = column.capacity[i] ?? NaN;
      const applies = !Number.isNaN(capacity);
      if (!applies && choices.concernedOnly && lacking(prediction, column, i).length === 0) return;
      const reasons = reasonsAt(prediction, column, i).map(
        ({ clause, says }) => `${clause}: ${says}`,
      );
      const free =
        hasLoad(actions[i] ?? null, provision.action) &&
        provision.modes.some((mode) => setupAllows(setups[i] ?? null, mode));
      if (applies && !free)
        reasons.push(
          `setup: a test of ${actions[i] ?? "unknown action"} by ${setups[i] ?? "an unknown setup"} cannot fail in this mode, so it does not govern`,
        );
      rows.push({
        test_id: ids[i] ?? "",
        code: code.id,
        clause: clauseOf(provision.id),
        mode: provision.modes[0],
        level: prediction.level,
        capacity_kN: applies ? capacity / 1000 : null,
        applies,
        governs: least.column[i] === k || joint?.tension === k || joint?.shear === k,
        reasons,
        rests_on: restsOn[k]?.(i) ?? [],
        ...(choices.steps
          ? { steps: traceToJson(trace(code, provision, tests, i, settings)) }
          : {}),
      });
    });
    if (actions[i] === "tension_and_shear") rows.push(interactionRow(prediction, i, choices));
  }
  return rows;
}

/**
 * The resultant of a test with tension and shear; the capacities that it joins are marked in their
 * own rows.
 */
function interactionRow(
  prediction: CodePrediction,
  i: number,
  { steps }: RowChoices,
): PredictionRow {
  const {
    code,
    level,
    settings,
    specimens: { tests },
  } = prediction;
  const [rule, found, traced] = [
    interactionRule(code, settings),
    interactionAt(prediction, i),
    interactionTrace(prediction, i),
  ];
  const applies = !Number.isNaN(found?.capacity ?? NaN);
  return {
    test_id: tests.texts("test_id")[i] ?? "",
    code: code.id,
    clause: rule?.clause ?? "",
    mode: "interaction",
    level,
    capacity_kN: applies ? (found?.capacity ?? NaN) / 1000 : null,
    applies,
    governs: applies,
    reasons: [interactionSentence(prediction, i), ...(found?.unchecked ?? [])],
    rests_on: interactionRestsOn(prediction, i),
    ...(steps && traced ? { steps: traceToJson(traced) } : {}),
  };
}
