import { VERDICT_WORDS } from "../review";
import type { CellReview, NotebookReview } from "../review";
import { createSanitiser, escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";
import { outputsHtml } from "./output-html";
import { REPORT_STYLE } from "./report-style";

/** Differences listed for one cell; beyond that their number is said. */
const MOST_DIFFERENCES = 200;

/** What the interactive page adds to the report. */
export interface PageParts {
  /** Set on the style and script elements and named in the content security policy. */
  readonly nonce: string;
  readonly script: string;
  readonly form: string;
  /** A remark box under each cell. */
  readonly remarkBox: (notebook: NotebookReview, cell: CellReview) => string;
}

/** The review as one HTML file without any outside resource; with `page`, as the interactive page. */
export async function reportHtml(reviews: readonly NotebookReview[], page?: PageParts): Promise<string> {
  const sanitise = await createSanitiser();
  const nonce = page ? ` nonce="${page.nonce}"` : "";
  const policy = `default-src 'none'; img-src data:; style-src 'unsafe-inline'${page ? `; script-src 'nonce-${page.nonce}'; connect-src 'self'` : ""}`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Review of notebooks</title>
<style>${REPORT_STYLE}</style>
</head>
<body>
<main>
<h1>Review of notebooks</h1>
<p>Each cell was run anew, from top to bottom in a fresh kernel, and compared with its record. A review shows that the numbers can be reproduced; it does not show that they are right. Research use: design follows the local code and a licensed engineer.</p>
${summary(reviews)}
${page?.form ?? ""}
${reviews.map((review) => notebookHtml(review, sanitise, page)).join("\n")}
</main>
${page ? `<script${nonce}>${page.script}</script>` : ""}
</body>
</html>
`;
}

function summary(reviews: readonly NotebookReview[]): string {
  const words = Object.entries(VERDICT_WORDS);
  const rows = reviews.map((review) => {
    const counts = words.map(([verdict]) => `<td>${review.cells.filter((cell) => cell.verdict === verdict).length}</td>`).join("");
    return `<tr><th scope="row">${escapeText(review.name)}</th><td>${review.reproduced ? "reproduced" : "NOT reproduced"}</td>${counts}<td>${review.cells.length} of ${review.cellCount}</td></tr>`;
  });
  const heads = words.map(([, word]) => `<th scope="col">${word}</th>`).join("");
  return `<table><caption>Verdicts</caption><thead><tr><th scope="col">Notebook</th><th scope="col">Result</th>${heads}<th scope="col">Cells reviewed</th></tr></thead><tbody>${rows.join("")}</tbody></table>`;
}

function notebookHtml(review: NotebookReview, sanitise: Sanitiser, page: PageParts | undefined): string {
  const list = (title: string, items: readonly string[]): string =>
    items.length === 0 ? "" : `<p>${title}</p><ul>${items.map((item) => `<li>${escapeText(item)}</li>`).join("")}</ul>`;
  return `<h2>${escapeText(review.name)}</h2>
<p>SHA-256 ${review.hash}</p>
${list("What has changed since the outputs were recorded, and may be why results differ:", review.reasons)}
${list("Notes:", review.notes)}
${review.cells.map((cell) => cellHtml(review, cell, sanitise, page)).join("\n")}`;
}

function cellHtml(review: NotebookReview, cell: CellReview, sanitise: Sanitiser, page: PageParts | undefined): string {
  const remark = page ? page.remarkBox(review, cell) : cell.remark ? `<p class="remark">Remark: ${escapeText(cell.remark)}</p>` : "";
  return `<section class="cell" data-verdict="${cell.verdict}" tabindex="-1">
<h3>[${cell.number}] ${escapeText(cell.title)} <span class="verdict">${VERDICT_WORDS[cell.verdict]}</span></h3>
${cell.explanation === "" ? "" : `<p>${escapeText(cell.explanation)}</p>`}
${differencesHtml(cell)}
<details><summary>Code</summary><pre tabindex="0">${escapeText(cell.source)}</pre></details>
<div class="beside"><div><h4>Recorded</h4>${outputsHtml(cell.recorded, sanitise)}</div><div><h4>Rerun</h4>${outputsHtml(cell.rerun, sanitise)}</div></div>
${remark}
</section>`;
}

function differencesHtml(cell: CellReview): string {
  if (cell.differences.length === 0) return "";
  const rows = cell.differences.slice(0, MOST_DIFFERENCES).map(({ where, recorded, rerun, relative, rule }) => {
    const size = rule ? `volatile: ${rule}` : relative === undefined ? "not a number" : Number.isFinite(relative) ? relative.toExponential(2) : "-";
    const verdict = rule ? "volatile" : relative !== undefined && relative <= cell.tolerance ? "within tolerance" : "changed";
    return `<tr><th scope="row">${escapeText(where)}</th>${[recorded, rerun, size, verdict].map((text) => `<td>${escapeText(text)}</td>`).join("")}</tr>`;
  });
  const rest = cell.differences.length - rows.length;
  return `<table><caption>Differences (tolerance ${cell.tolerance})</caption><thead><tr>${["Where", "Recorded", "Rerun", "Relative difference", "Meaning"].map((head) => `<th scope="col">${head}</th>`).join("")}</tr></thead><tbody>${rows.join("")}</tbody></table>${rest > 0 ? `<p>and ${rest} more</p>` : ""}`;
}
