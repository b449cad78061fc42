import { governing } from "../model/governing";
import { interactionAt, interactionRule } from "../model/interaction";
import { clauseOf } from "../model/reasons";
import { clauseWords } from "./clause-words";
import type { CodePrediction } from "../model/predict";
import { writtenValue } from "./written-number";

/** Says which capacity of a code governs one row, or that none applies. */
export function governingSentence(prediction: CodePrediction, i: number): string {
  if (prediction.specimens.tests.texts("action")[i] === "tension_and_shear")
    return interactionSentence(prediction, i);
  const { column, capacity } = governing(prediction);
  const governs = prediction.columns[column[i] ?? -1];
  const setup = prediction.specimens.tests.texts("setup")[i] ?? "unknown";
  if (!governs)
    return `No capacity of ${prediction.code.id} applies to this test (${setup.replaceAll("_", " ")}).`;
  const { inSi, unit } = prediction.code.system;
  const force = writtenValue(
    (capacity[i] ?? NaN) / inSi.force,
    unit.force,
    (capacity[i] ?? NaN) / 1000,
    "kN",
  );
  return `Governing for this test (${setup.replaceAll("_", " ")}): ${governs.provision.title}${clauseWords(governs.provision.id, ", ")}, ${force}.`;
}

/**
 * The resultant of a test with both loads, and the capacities in tension and in shear that it
 * joins.
 */
export function interactionSentence(prediction: CodePrediction, i: number): string {
  const { code } = prediction;
  const [found, rule] = [interactionAt(prediction, i), interactionRule(code, prediction.settings)];
  if (rule === null || found === null)
    return `${code.id} states no interaction of tension and shear.`;
  if (found.governing === null)
    return `No resultant capacity of ${code.id}: no capacity in ${found.without.join(" and in ") || "one action of any equation"}.`;
  const force = (newtons: number): string =>
    writtenValue(newtons / code.system.inSi.force, code.system.unit.force, newtons / 1000, "kN");
  const of = (column: number): string => {
    const { provision, capacity } = prediction.columns[column]!;
    return `${force(capacity[i] ?? NaN)} (${clauseOf(provision.id)}, ${provision.modes[0].replaceAll("_", " ")})`;
  };
  const { tension, shear, equation } = found.governing;
  if (Number.isNaN(found.angle))
    return `No resultant capacity of ${code.id}: load_angle_deg is blank.`;
  return `Tension and shear at ${Number(found.angle.toPrecision(4))}° from the bar axis, ${equation.clause}, ${equation.meaning}: resultant ${force(found.capacity)}, from tension ${of(tension)} and shear ${of(shear)}.`;
}
