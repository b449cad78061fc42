import type { RatioGroup, VerdictWord } from "../../comparison";
import { symbolText } from "../../formula";
import type { Proposal } from "../../proposals";
import type { PacketResults } from "./packet-results";

/** The answer in five lines, each number counted from the results. */
export function answerLines({
  comparison,
  groups,
  proposals,
  change,
  factors,
}: PacketResults): string[] {
  const evidence = groups.flatMap((group) => group.evidence);
  const tested = new Set(evidence.map(({ row }) => row)).size;
  const failures = evidence.filter(({ bound }) => !bound).length;
  const labels = new Set(groups.map(({ label }) => label));
  const known = (list: readonly string[]): string[] => list.filter((label) => labels.has(label));
  return [
    `${tested} of ${comparison.tests.length} rows of tests give ${evidence.length} ratios in the modes studied (a test may also be a lower bound for another mode): ${failures} failures and ${evidence.length - failures} lower bounds.`,
    `Present provision, in general (for a further series), ${groups.length} groups. ${verdictCounts(groups, (one) => one.verdict)} As tested (series effect ignored): ${verdictCounts(groups, (one) => one.asTested.verdict, false)}`,
    lowest(groups),
    proposals.length === 0
      ? "No factor is proposed."
      : `Proposed: ${proposals.map((one) => `${one.title}: ${symbolText(one.symbol)} = ${one.says} (${supportWords(one)})`).join("; ")}.`,
    `With the proposal, in general. Now meet: ${counted(known(change.nowMeet))}. Still fall short: ${counted(known(change.stillShort))}. Undecided: ${counted(known(change.undecided))}. FRP bars without a factor: ${counted(factors.filter(({ status }) => status === "not derived").map(({ label }) => label))}.`,
  ];
}

/** The criterion of a proposal, and whether its own tests show that a reduction is needed. */
export function supportWords({
  criterion,
  supported,
}: Pick<Proposal, "criterion" | "supported">): string {
  const by = criterion === undefined ? "no criterion stated" : `criterion "${criterion}"`;
  return supported === undefined
    ? by
    : `${by}; ${supported ? "the tests show that a reduction is needed" : "supported: no, the tests do not show that a reduction is needed"}`;
}

const WORDS: readonly (readonly [string, readonly VerdictWord[]])[] = [
  ["Meet", ["meets"]],
  ["Fall short", ["falls short"]],
  ["Undecided", ["undecided"]],
  ["Too few tests or series", ["too few tests", "too few series"]],
  ["No criterion", ["no criterion"]],
];

function verdictCounts(
  groups: readonly RatioGroup[],
  verdictOf: (group: RatioGroup) => VerdictWord,
  named: boolean = true,
): string {
  const parts = WORDS.map(([title, verdicts]) => ({
    title,
    labels: groups.filter((group) => verdicts.includes(verdictOf(group))).map(({ label }) => label),
  })).filter(({ labels }, k) => k < 3 || labels.length > 0);
  return named
    ? parts.map(({ title, labels }) => `${title}: ${counted(labels)}.`).join(" ")
    : `${parts.map(({ title, labels }) => `${labels.length} ${title.toLowerCase()}`).join(", ")}.`;
}

function lowest(groups: readonly RatioGroup[]): string {
  const least = groups.reduce<RatioGroup | null>(
    (low, one) => (one.lower === null || (low !== null && low.lower! <= one.lower) ? low : one),
    null,
  );
  return least === null
    ? "No group has the series for a verdict in general."
    : `The lowest characteristic ratio in general is ${least.lower!.toFixed(3)} (${least.label}: estimate of the fractile ${least.fractile!.toFixed(3)}, upper bound ${least.upper!.toFixed(3)}, ${least.verdict}).`;
}

function counted(labels: readonly string[]): string {
  return labels.length === 0 ? "none" : `${labels.length} (${labels.join("; ")})`;
}
