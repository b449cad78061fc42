import { capitalised } from "./labels";
import type { RatioGroup } from "./ratio-group";

/**
 * The verdict in general with its reason, and that as tested where it differs: "{Group}, in
 * general: {verdict}. {Reason}".
 * @example
 * verdictLines(group)[0] // "Bond, GFRP, in general: …"
 */
export function verdictLines({
  label,
  asTested,
  inGeneral,
}: Pick<RatioGroup, "label" | "asTested" | "inGeneral">): string[] {
  const line = (
    question: string,
    { verdict, reason }: { readonly verdict: string; readonly reason: string },
  ): string => `${capitalised(label)}, ${question}: ${verdict}. ${sentence(reason)}`;
  return [
    line("in general", inGeneral),
    ...(asTested.verdict === inGeneral.verdict ? [] : [line("as tested", asTested)]),
  ];
}

/** A symbol that begins a reason keeps its small letter. */
function sentence(reason: string): string {
  return /^\p{L}_/u.test(reason) ? reason : capitalised(reason);
}
