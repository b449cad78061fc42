export { ballotHtml, type BallotCover, type BallotDocument, type BallotPage } from "./ballot-html";
export { ballotDocx } from "./ballot-docx";
