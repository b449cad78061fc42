export type { CellComment } from "./desk-notebook";
export { ReviewDesk } from "./review-desk";
export type { DeskState } from "./review-desk";
export { serveReviewPage } from "./serve-review-page";
export type { ReviewPage, ReviewPageOptions } from "./serve-review-page";
