import type { VerdictWord } from "../../comparison";

/** The verdicts in the order in which they are told. */
export const VERDICT_WORDS: readonly VerdictWord[] = [
  "falls short",
  "undecided",
  "meets",
  "too few tests",
  "too few series",
  "no criterion",
];

const VERB: Readonly<Record<VerdictWord, (n: number) => string>> = {
  meets: (n) => (n === 1 ? "meets" : "meet"),
  "falls short": (n) => (n === 1 ? "falls short" : "fall short"),
  undecided: () => "undecided",
  "too few tests": () => "with too few tests",
  "too few series": () => "with too few series",
  "no criterion": () => "without a criterion",
};

/** How many groups have which verdict: "3 fall short, 4 undecided, 6 meet". */
export function verdictCounts(verdicts: readonly VerdictWord[]): string {
  return VERDICT_WORDS.map((word) => [word, verdicts.filter((one) => one === word).length] as const)
    .filter(([, n]) => n > 0)
    .map(([word, n]) => `${n} ${VERB[word](n)}`)
    .join(", ");
}
