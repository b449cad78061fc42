import { VERDICT_WORDS, outcomeWords } from "../review";
import type { NotebookReview } from "../review";
import type { RecordedEnvironment } from "../run";
import { createSanitiser, escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";
import { cellBodyHtml, reviewerWords, verdictHtml } from "./cell-html";
import { REPORT_STYLE } from "./report-style";

/** Said above every review. */
export const REVIEW_CAUTION =
  "Each cell is run anew, from top to bottom in a fresh kernel, and compared with its record: data, text, styles, pictures, and each form of an output with the others. Prose between the cells and comments in the code are their author's and are not compared. A review shows that the numbers can be reproduced; it does not show that they are right. Research use: design follows the local code and a licensed engineer.";

/** The review as one HTML file that loads nothing and runs nothing. */
export async function reportHtml(
  reviews: readonly NotebookReview[],
  signed?: SignedReport,
): Promise<string> {
  const sanitise = await createSanitiser();
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src data:; style-src 'unsafe-inline'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Review of notebooks</title>
<style>${REPORT_STYLE}</style>
</head>
<body>
<main>
<h1>Review of notebooks</h1>
<p class="caution">${REVIEW_CAUTION}</p>
${signedHtml(signed)}
${summaryHtml(reviews)}
${reviews.map((review, index) => notebookHtml(review, index + 1, sanitise)).join("\n")}
</main>
</body>
</html>
`;
}

/** What a report says of the record that was signed with it. */
export interface SignedReport {
  readonly reviewer: string;
  readonly signed: string;
  readonly environment: RecordedEnvironment;
  readonly excused_accepted: boolean;
  /** SHA-256 of the record's file. */
  readonly sha256: string;
  /** The fingerprint of the key that signed it, where one did. */
  readonly key?: string;
}

function signedHtml(signed: SignedReport | undefined): string {
  if (signed === undefined) return `<p class="none">Not signed.</p>`;
  const { reviewer, environment, sha256, key } = signed;
  const rows: readonly (readonly [string, string])[] = [
    ["Reviewer", reviewer],
    ["Signed", signed.signed],
    ...(signed.excused_accepted ? ([["Excused cells", "accepted by the reviewer"]] as const) : []),
    ["Node", environment.node],
    ["tslab", environment.tslab],
    ["Library, SHA-256", environment.library],
    ["package-lock.json, SHA-256", environment.lock_file || "none"],
    ...Object.entries(environment.inputs).map(
      ([file, hash]) => [`Data file ${file}, SHA-256`, hash] as const,
    ),
    ["Record, SHA-256", sha256],
    ["Signing key", key ?? "none: the record carries a name, no seal"],
  ];
  return `<details class="signed" open><summary>Signed by ${escapeText(reviewer)}, ${escapeText(signed.signed)}</summary><table><tbody>${rows.map(([name, value]) => `<tr><th scope="row">${escapeText(name)}</th><td class="hash">${escapeText(value)}</td></tr>`).join("")}</tbody></table></details>`;
}

function summaryHtml(reviews: readonly NotebookReview[]): string {
  const words = Object.entries(VERDICT_WORDS);
  const rows = reviews.map((review) => {
    const counts = words
      .map(
        ([verdict]) => `<td>${review.cells.filter((cell) => cell.verdict === verdict).length}</td>`,
      )
      .join("");
    return `<tr><th scope="row">${escapeText(review.name)}</th><td>${outcomeWords(review)}</td>${counts}<td>${review.cells.length} of ${review.cellCount}</td></tr>`;
  });
  const heads = words.map(([, word]) => `<th scope="col">${word}</th>`).join("");
  return `<div class="summary" tabindex="0" role="group" aria-label="verdicts"><table><caption>Verdicts</caption><thead><tr><th scope="col">Notebook</th><th scope="col">Result</th>${heads}<th scope="col">Cells reviewed</th></tr></thead><tbody>${rows.join("")}</tbody></table></div>`;
}

/** Why results may differ, and what else a reviewer should know. */
export function circumstancesHtml({
  reasons,
  notes,
}: Pick<NotebookReview, "reasons" | "notes">): string {
  const list = (title: string, items: readonly string[]): string =>
    items.length === 0
      ? ""
      : `<p>${title}</p><ul>${items.map((item) => `<li>${escapeText(item)}</li>`).join("")}</ul>`;
  return `${list("What has changed since the outputs were recorded, and may be why results differ:", reasons)}${list("Notes:", notes)}`;
}

function notebookHtml(review: NotebookReview, place: number, sanitise: Sanitiser): string {
  const cells = review.cells.map(
    (cell) => `<section class="cell" data-verdict="${cell.verdict}">
<h3>[${cell.number}] ${escapeText(cell.title)} ${verdictHtml(cell.verdict)}</h3>
${cellBodyHtml(cell, `n${place}-c${cell.number}`, sanitise)}
${reviewerWords(cell)}
</section>`,
  );
  return `<h2>${escapeText(review.name)}</h2>
<p class="hash">SHA-256 ${review.hash}</p>
${circumstancesHtml(review)}
${cells.join("\n")}`;
}
