import type { Block } from "../document/document";
import type { PacketResults } from "./packet-results";

export const paragraph = (text: string): Block => ({ kind: "paragraph", text });

/** The fractile asked for, with its confidence. */
export function fractileWords({ question }: PacketResults): string {
  return `${percent(question.fractile)} fractile (one-sided, at ${percent(question.confidence)} confidence)`;
}

export const percent = (share: number): string => `${Number((100 * share).toPrecision(6))} %`;
