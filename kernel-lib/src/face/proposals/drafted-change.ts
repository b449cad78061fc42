import type { Draft, ParagraphName } from "../../exports/draft";
import type { ChangeEvidence, ProposedChange } from "../../proposals";
import { count } from "../results/names";
import { BALLOT_TEXTS } from "./ballot-page";
import type { ParagraphTexts } from "./proposal-told";

/** A change with the tested range as its limits, where it states none and tests are behind it. */
export function withinTested({ proposal, limits, n, lowerBounds }: ChangeEvidence): ProposedChange {
  if (proposal.limits !== undefined || n + lowerBounds === 0) return proposal;
  const evidence = `${count(n, "test")} that failed in the mode, ${count(lowerBounds, "lower bound")}`;
  return { ...proposal, limits, evidence };
}

/** A draft with the researcher's words; those of the ballot sheet stand elsewhere. */
export function withParagraphs(draft: Draft, texts: ParagraphTexts): Draft {
  return (Object.entries(texts) as [string, string | undefined][]).reduce(
    (edited, [name, text]) =>
      text === undefined || BALLOT_TEXTS.includes(name)
        ? edited
        : edited.replace(name as ParagraphName, text),
    draft,
  );
}
