import type { PacketResults } from "./packet-results";

/** The fractile asked for, with its confidence. */
export function fractileWords({ question }: PacketResults): string {
  return `${percent(question.fractile)} fractile (one-sided, at ${percent(question.confidence)} confidence)`;
}

export const percent = (share: number): string => `${Number((100 * share).toPrecision(6))} %`;
