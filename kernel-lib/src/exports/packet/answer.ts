import { symbolText } from "../../formula";
import type { PacketResults } from "./packet-of";

/** The answer in five lines, each number counted from the results. */
export function answerLines({ comparison, groups, proposals, change, factors }: PacketResults): string[] {
  const of = (verdict: string): string[] => groups.filter((group) => group.verdict === verdict).map(({ label }) => label);
  const counted = (labels: readonly string[]): string => (labels.length === 0 ? "none" : `${labels.length} (${labels.join("; ")})`);
  const ratios = groups.flatMap(({ lower, label }) => (lower === null ? [] : [{ characteristic: lower, label }]));
  const least = ratios.reduce<{ characteristic: number; label: string } | null>((low, one) => (low === null || one.characteristic < low.characteristic ? one : low), null);
  const evidence = groups.flatMap((group) => group.evidence);
  const tested = new Set(evidence.map(({ row }) => row)).size;
  const values = evidence.filter(({ bound }) => !bound).length;
  const labels = new Set(groups.map(({ label }) => label));
  const mended = change.mended.filter((label) => labels.has(label));
  const short = change.stillShort.filter((label) => labels.has(label));
  return [
    `${tested} of ${comparison.tests.length} rows of tests give ${evidence.length} ratios in the modes studied (a row may bound a further mode than its own): ${values} values and ${evidence.length - values} lower bounds.`,
    `Groups: ${groups.length}. Meet the code: ${counted(of("meets"))}. Fall short: ${counted(of("falls short"))}. Too few tests to tell: ${counted(of("too few tests"))}.`,
    least === null ? "No group has enough tests for a characteristic ratio." : `The least characteristic ratio is ${least.characteristic.toFixed(3)} (${least.label}).`,
    proposals.length === 0 ? "No factor is proposed." : `Proposed: ${proposals.map(({ title, symbol, says }) => `${title}: ${symbolText(symbol)} = ${says}`).join("; ")}.`,
    `With the proposal. Fell short and meet now: ${counted(mended)}. Still fall short: ${counted(short)}. FRP bars without a factor for want of tests: ${counted(factors.filter(({ status }) => status === "not derived").map(({ label }) => label))}.`,
  ];
}
