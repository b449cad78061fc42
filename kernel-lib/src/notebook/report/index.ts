export { reportHtml } from "./report-html";
export type { PageParts } from "./report-html";
