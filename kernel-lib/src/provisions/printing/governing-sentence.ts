import { governing } from "../model/governing";
import { clauseOf } from "../model/reasons";
import type { CodePrediction } from "../model/predict";
import { writtenNumber } from "./written-number";

/** Says which capacity of a code governs one row, or that none applies. */
export function governingSentence(prediction: CodePrediction, i: number): string {
  const { column, capacity } = governing(prediction);
  const governs = prediction.columns[column[i] ?? -1];
  const setup = prediction.specimens.tests.texts("setup")[i] ?? "unknown";
  if (!governs) return `No capacity of ${prediction.code.id} applies to this test (${setup}).`;
  return `Governing for this test (${setup}): ${governs.provision.title}, clause ${clauseOf(governs.provision.id)}, ${writtenNumber((capacity[i] ?? NaN) / 1000)} kN.`;
}
