import { symbolText } from "../../formula";
import type { PacketResults } from "./packet-of";

/** The answer in five lines, each number counted from the results. */
export function answerLines({ comparison, groups, proposals, change, factors }: PacketResults): string[] {
  const of = (verdict: string): string[] => groups.filter((group) => group.verdict === verdict).map(({ label }) => label);
  const named = (labels: readonly string[]): string => (labels.length === 0 ? "none" : labels.join("; "));
  const ratios = groups.flatMap(({ characteristic, label }) => (characteristic === null ? [] : [{ characteristic, label }]));
  const least = ratios.reduce<{ characteristic: number; label: string } | null>((low, one) => (low === null || one.characteristic < low.characteristic ? one : low), null);
  const evidence = groups.flatMap((group) => group.evidence);
  const tested = new Set(evidence.map(({ row }) => row)).size;
  const values = evidence.filter(({ bound }) => !bound).length;
  const labels = new Set(groups.map(({ label }) => label));
  const mended = change.mended.filter((label) => labels.has(label));
  const short = change.stillShort.filter((label) => labels.has(label));
  return [
    `${tested} of ${comparison.tests.length} rows of tests give ${evidence.length} ratios in the modes studied (a row may bound a further mode than its own): ${values} values and ${evidence.length - values} lower bounds.`,
    `Of ${groups.length} groups, ${of("meets").length} meet the code (${named(of("meets"))}) and ${of("falls short").length} fall short (${named(of("falls short"))}); ${of("too few tests").length} have too few tests to tell.`,
    least === null ? "No group has enough tests for a characteristic ratio." : `The least characteristic ratio is ${least.characteristic.toFixed(3)} (${least.label}).`,
    proposals.length === 0 ? "No factor is proposed." : `Proposed: ${proposals.map(({ title, symbol, says }) => `${title}: ${symbolText(symbol)} = ${says}`).join("; ")}.`,
    `With the proposal ${mended.length} groups that fell short meet (${named(mended)}); ${short.length} fall short still (${named(short)}). ${factors.filter(({ status }) => status === "not derived").length} groups of FRP bars have no factor for want of tests.`,
  ];
}
