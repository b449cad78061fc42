export { OPINION_WORDS, VERDICT_WORDS } from "./cell-review";
export { compareEnvironments } from "./compare-environments";
export type { CellReview, CellVerdict, NotebookReview, ReviewerOpinion } from "./cell-review";
export { reviewNotebook } from "./review-notebook";
export type { ReviewOptions } from "./review-notebook";
export { reviewNotebooks } from "./review-notebooks";
export type { ReviewNotebooksOptions, ReviewProgress } from "./review-notebooks";
export { DEFAULT_TOLERANCE, ReviewSession } from "./review-session";
export type { ReviewSessionOptions } from "./review-session";
