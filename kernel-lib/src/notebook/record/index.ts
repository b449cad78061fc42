export { checkReviewRecord } from "./check-record";
export {
  makeReviewRecord,
  readReviewRecord,
  recordSha256,
  writeReviewRecord,
} from "./review-record";
export type { ReviewRecord } from "./review-record";
export { REVIEW_RECORD_SCHEMA } from "./review-record-schema";
export {
  readSignOffs,
  REVIEW_RECORD_FILE,
  SIGN_OFF_OPINIONS,
  writeSignOff,
  type ReadSignOff,
  type SignOff,
  type SignOffOpinion,
} from "./sign-off";
export { checkSignature, signatureFile, writeSignature } from "./signature";
export type { CheckedSignature } from "./signature";
