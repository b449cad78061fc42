/** The finding on one group, a word first. */
export type Verdict = "meets" | "falls short" | "too few tests";

interface VerdictFacts {
  readonly n: number;
  readonly nCensored: number;
  readonly characteristic: number | null;
  readonly target: number;
  /** Why there is no characteristic value; empty when there is one. */
  readonly refusal: string;
  /** Rows that are means of several specimens, whose own scatter is not seen. */
  readonly meansOfReplicates: number;
  readonly fractile: number;
  readonly confidence: number;
  /** What the characteristic ratio rests on, in words: "counted by 11 series". */
  readonly counted: string;
  /** The characteristic ratio with tests taken as independent. */
  readonly ofTests: number | null;
}

/** The verdict on a characteristic ratio, with the reason in one sentence. */
export function verdictOf(facts: VerdictFacts): { verdict: Verdict; reason: string } {
  const bounds = facts.nCensored > 0 ? `, ${facts.nCensored} of ${facts.n + facts.nCensored} tests are lower bounds` : "";
  const hidden = facts.meansOfReplicates > 0 ? `; ${facts.meansOfReplicates} of the rows are means of replicates, so the scatter of single tests is larger than shown` : "";
  if (facts.characteristic === null) return { verdict: "too few tests", reason: `no characteristic value: ${facts.refusal}${bounds}${hidden}` };
  const question = `${100 * facts.fractile} % fractile at ${100 * facts.confidence} % confidence`;
  const meets = facts.characteristic >= facts.target;
  const relation = meets ? "not below" : "below";
  const apart = facts.ofTests === null || facts.ofTests === facts.characteristic ? "" : `; ${shown(facts.ofTests, facts.target)} with tests taken as independent`;
  return {
    verdict: meets ? "meets" : "falls short",
    reason: `characteristic ratio ${shown(facts.characteristic, facts.target)} (${question}, ${facts.counted}) is ${relation} ${facts.target}${apart}${bounds}${hidden}`,
  };
}

/** Enough digits that the printed number stands on the same side of the target as the true one. */
function shown(value: number, target: number): string {
  for (let digits = 3; digits < 16; digits++) {
    const text = value.toPrecision(digits);
    if (Number(text) >= target === value >= target) return text;
  }
  return String(value);
}
