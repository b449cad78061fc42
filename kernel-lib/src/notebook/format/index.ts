export { codeCells, sourceOf, tagsOf, wholeText } from "./cell-text";
export type { NumberedCell } from "./cell-text";
export { LIMITS } from "./limits";
export { NotebookProblem } from "./notebook-problem";
export type * from "./notebook-types";
export { parseNotebook, readNotebook } from "./read-notebook";
export { notebookText, writeNotebook, writeWhole } from "./write-notebook";
