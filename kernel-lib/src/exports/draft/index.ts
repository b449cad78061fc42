export { Draft, draftText, type DraftResults } from "./draft";
export type { DraftParagraph, ParagraphName } from "./draft-paragraphs";
export { conditionWords } from "./condition-words";
export { ownFactors, proposalReport, type ProposalReportInput } from "./proposal-report";
export { checkTyped, filled } from "./draft-paragraphs";
