export {
  checkDocument,
  numbering,
  type Block,
  type DocumentModel,
  type ProvisionPiece,
  type Section,
} from "./document";
export { documentDocx } from "./document-docx";
export { documentHtml } from "./document-html";
export { documentPdf } from "./document-pdf";
export { REPORT_FORMATS, reportText, writeReport } from "./write-report";
