export { cellBodyHtml, codeHtml, verdictHtml } from "./cell-html";
export { recordedOutputs } from "./outputs-beside";
export { proseHtml } from "./prose-html";
export { REVIEW_CAUTION, circumstancesHtml, reportHtml } from "./report-html";
export type { SignedReport } from "./report-html";
export { REPORT_STYLE } from "./report-style";
