import type { Comparison as Pairs, GroupSettings } from "../../comparison";
import type { BallotPage } from "../../exports/ballot";
import { checkTyped, filled, type Draft } from "../../exports/draft";
import { ballotSheet, type ProposedChange } from "../../proposals";

/** The researcher's words on a ballot sheet; numbers by placeholders only. */
export interface BallotTexts {
  /** The middle sentence of the reason; the rationale of the change by default. */
  readonly reason?: string;
  /** Why a change stands that its own evidence does not support. */
  readonly stands?: string;
}

/** Names of these words among the paragraphs of a draft. */
export const BALLOT_TEXTS: readonly string[] = ["reason", "stands"];

/** @throws Error for a typed number or a placeholder that the draft has not */
export function checkBallotTexts(texts: BallotTexts | undefined, draft: Draft): void {
  for (const [name, text] of [
    ["reason", texts?.reason],
    ["stands", texts?.stands],
  ] as const) {
    if (text === undefined) continue;
    checkTyped(name, text);
    filled(text, draft.values);
  }
}

/** One sheet with its draft and the researcher's words. */
export function ballotPage(
  { question }: { readonly question: GroupSettings },
  present: Pairs,
  changes: readonly ProposedChange[],
  provision: string,
  draft: Draft,
  texts: BallotTexts = {},
): BallotPage {
  const { fractile, confidence, distribution, cells } = question;
  const words = (text: string | undefined): string | undefined =>
    text === undefined ? undefined : filled(text, draft.values);
  const statement = words(texts.stands);
  return {
    sheet: ballotSheet({
      present,
      changes,
      provision,
      question: {
        ...(fractile === undefined ? {} : { fractile }),
        ...(confidence === undefined ? {} : { confidence }),
        ...(distribution === undefined ? {} : { distribution }),
        ...(cells === undefined ? {} : { cells }),
      },
      ...(statement === undefined ? {} : { statement }),
    }),
    draft,
    reason: words(texts.reason) ?? draft.proposal.rationale,
  };
}
