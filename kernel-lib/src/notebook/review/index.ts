export { VERDICT_WORDS } from "./cell-review";
export type { CellReview, CellVerdict, NotebookReview } from "./cell-review";
export { DEFAULT_TOLERANCE, reviewNotebook } from "./review-notebook";
export type { ReviewOptions } from "./review-notebook";
export { reviewNotebooks } from "./review-notebooks";
export type { ReviewNotebooksOptions, ReviewProgress } from "./review-notebooks";
