import { governing } from "../model/governing";
import { clauseWords } from "./clause-words";
import type { CodePrediction } from "../model/predict";
import { writtenValue } from "./written-number";

/** Says which capacity of a code governs one row, or that none applies. */
export function governingSentence(prediction: CodePrediction, i: number): string {
  const { column, capacity } = governing(prediction);
  const governs = prediction.columns[column[i] ?? -1];
  const setup = prediction.specimens.tests.texts("setup")[i] ?? "unknown";
  if (!governs) return `No capacity of ${prediction.code.id} applies to this test (${setup.replaceAll("_", " ")}).`;
  const { inSi, unit } = prediction.code.system;
  const force = writtenValue((capacity[i] ?? NaN) / inSi.force, unit.force, (capacity[i] ?? NaN) / 1000, "kN");
  return `Governing for this test (${setup.replaceAll("_", " ")}): ${governs.provision.title}${clauseWords(governs.provision.id, ", ")}, ${force}.`;
}
