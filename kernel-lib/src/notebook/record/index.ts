export { checkReviewRecord } from "./check-record";
export { makeReviewRecord, readReviewRecord, writeReviewRecord } from "./review-record";
export type { ReviewRecord } from "./review-record";
export { REVIEW_RECORD_SCHEMA } from "./review-record-schema";
