import { characteristicOfTests, type EvidenceTest, type FactorChoices } from "./characteristic-of-tests";

/** The factor under one set of choices; the shape that the figure of the spread of choices takes. */
export interface ChoiceOutcome {
  /** The factor; NaN is never given, analyses without an answer are listed apart. */
  readonly estimate: number;
  readonly choices: Readonly<Record<string, string>>;
  readonly reported: boolean;
  readonly n: number;
  readonly survives: boolean;
}

/** Every reasonable analysis of the same tests. */
export interface ReasonableChoices {
  readonly analyses: readonly ChoiceOutcome[];
  /** Sets of choices that give no factor, with the reason. */
  readonly unanswered: readonly { readonly choices: Readonly<Record<string, string>>; readonly reason: string }[];
  /** Share of the answered analyses in which the proposed factor survives; null when none answered. */
  readonly shareSurviving: number | null;
  readonly reading: string;
}

const QUESTIONS: readonly { says: string; fractile: number; confidence: number | null }[] = [
  { says: "5 % at 90 %", fractile: 0.05, confidence: 0.9 },
  { says: "5 % at 75 %", fractile: 0.05, confidence: 0.75 },
  { says: "5 % at 95 %", fractile: 0.05, confidence: 0.95 },
  { says: "5 % predicted", fractile: 0.05, confidence: null },
];

/** Every combination; the prediction form, which cannot count by series, takes tests as independent only. */
function combinations(treatments: readonly FactorChoices["bounds"][]): (FactorChoices & { readonly says: string })[] {
  const both = ["series", "tests"] as const;
  return both.flatMap((basis) => (["normal", "lognormal"] as const).flatMap((distribution) => QUESTIONS.filter(({ confidence }) => basis === "tests" || confidence !== null).flatMap((question) =>
    treatments.flatMap((bounds) => (["kept", "left out"] as const).map((outliers) => ({ ...question, basis, distribution, bounds, outliers }))))));
}

/**
 * Would the factor survive? The factor under all combinations of counting by series or not, distribution, fractile and confidence, treatment of
 * lower bounds (where there are any) and of outliers. The reported analysis is marked; none is preferred after the fact.
 * @example reasonableChoices(tests, 0.8).analyses // for choicesSpread
 */
export function reasonableChoices(tests: readonly EvidenceTest[], proposed: number, reported: FactorChoices): ReasonableChoices {
  const analyses: ChoiceOutcome[] = [];
  const unanswered: { choices: Record<string, string>; reason: string }[] = [];
  const treatments = tests.some(({ bound }) => bound) ? (["as lower bounds", "left out", "as failures"] as const) : ([reported.bounds] as const);
  for (const one of combinations(treatments)) {
    const { says, ...choices } = one;
    const shown: Record<string, string> = { Tests: one.basis === "series" ? "by series" : "independent", Distribution: one.distribution, Fractile: says, Outliers: one.outliers, ...(treatments.length > 1 ? { "Lower bounds": one.bounds } : {}) };
    const { factor, n, reason } = characteristicOfTests(tests, choices);
    const own = (Object.keys(choices) as (keyof FactorChoices)[]).every((name) => choices[name] === reported[name]);
    if (factor === null) unanswered.push({ choices: shown, reason });
    else analyses.push({ estimate: factor, choices: shown, reported: own, n, survives: proposed <= factor + 1e-12 });
  }
  const surviving = analyses.filter(({ survives }) => survives).length;
  const estimates = analyses.map(({ estimate }) => estimate);
  return {
    analyses, unanswered, shareSurviving: analyses.length === 0 ? null : surviving / analyses.length,
    reading: analyses.length === 0
      ? `No analysis gives a factor: ${unanswered[0]?.reason ?? "no tests"}.`
      : `The factor ${proposed} is not above what ${surviving} of ${analyses.length} reasonable analyses give (${Math.min(...estimates).toFixed(3)} to ${Math.max(...estimates).toFixed(3)})${unanswered.length > 0 ? `; ${unanswered.length} give none` : ""}.`,
  };
}
