import { capitalised, type Evidence } from "../../comparison";
import type { TestTable } from "../../dataset";
import { USUAL_CHOICES, type EvidenceTest, type FactorChoices } from "./characteristic-of-tests";
import { leaveOneOut, type LeftOut } from "./leave-out";
import { reasonableChoices, type ReasonableChoices } from "./reasonable-choices";

/** Whether a factor survives on one group of tests. */
export interface Survival {
  readonly label: string;
  readonly factor: number;
  readonly leftOut: readonly LeftOut[];
  readonly choices: ReasonableChoices;
  readonly reading: string;
}

/** The tests behind a group of ratios, as the derivations of a factor read them. */
export function evidenceTests(evidence: readonly Pick<Evidence, "row" | "ratio" | "bound">[], tests: TestTable): EvidenceTest[] {
  const [studies, series, sizes] = [tests.texts("study_id"), tests.texts("series_id"), tests.texts("bar_size")];
  return evidence.map(({ row, ratio, bound }) => ({ ratio, bound, study: studies[row] ?? "", series: series[row] ?? "", size: sizes[row] ?? "" }));
}

/**
 * Would a factor survive? Without each study and each size, and under every other reasonable analysis.
 * @example factorSurvival("bond, GFRP", evidenceTests(group.evidence, tests), 0.8).reading
 */
export function factorSurvival(label: string, tests: readonly EvidenceTest[], factor: number, reported: FactorChoices = USUAL_CHOICES): Survival {
  const leftOut = (["study", "size"] as const).flatMap((by) => leaveOneOut(tests, by, factor, reported));
  const choices = reasonableChoices(tests, factor, reported);
  return { label, factor, leftOut, choices, reading: `${capitalised(label)}: ${choices.reading} ${leftOutWords(leftOut)}` };
}

/** What leaving out says; a factor that cannot be derived again has not survived. */
function leftOutWords(leftOut: readonly LeftOut[]): string {
  if (leftOut.length === 0) return "There is one study and one size only, so that nothing can be left out.";
  const named = (survives: boolean | null): string[] => leftOut.filter((one) => one.survives === survives).map(({ by, left }) => `${by} ${left}`);
  const [fails, unknown] = [named(false), named(null)];
  if (fails.length + unknown.length === 0) return "It survives without any one study or size.";
  return [
    ...(fails.length > 0 ? [`It does not survive without ${fails.join(", ")}.`] : []),
    ...(unknown.length > 0 ? [`Without ${unknown.join(", ")} too little is left to derive a factor from, so that it rests on ${unknown.length === 1 ? "it" : "each of them"}.`] : []),
  ].join(" ");
}
