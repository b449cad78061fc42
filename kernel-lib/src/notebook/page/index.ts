export { serveReviewPage } from "./review-page";
export type { ReviewPage } from "./review-page";
