export { ballotSheet, type BallotSheetInput } from "./make-sheet";
export { name as className, proposedWords } from "./doubts";
export type { BallotSheet, SheetClass, SheetConsequence, SheetStatus, WorkedAnchor } from "./sheet";
