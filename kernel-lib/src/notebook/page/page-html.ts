import { readFileSync } from "node:fs";
import { join } from "node:path";
import { REPORT_STYLE, REVIEW_CAUTION, circumstancesHtml } from "../report";
import { escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";
import { cellSection } from "./cell-section";
import { helpHtml } from "./page-help";
import { PAGE_STYLE } from "./page-style";
import type { ReviewDesk } from "./review-desk";

/**
 * The parts of the page's script, in order; they lie beside the library as they are, for the
 * browser alone.
 */
const SCRIPT_PARTS = ["asking", "showing", "acting", "listening"];

function pageScript(): string {
  const folder = join(__dirname, "..", "..", "..", "page");
  return SCRIPT_PARTS.map((part) => readFileSync(join(folder, `${part}.js`), "utf8")).join("\n");
}

/**
 * The page's policy: no outside resource, no script but its own, nothing framed, no form sent by
 * the browser.
 */
export function pagePolicy(nonce: string): string {
  return [
    "default-src 'none'",
    "img-src data:",
    "connect-src 'self'",
    `script-src 'nonce-${nonce}'`,
    `style-src-elem 'nonce-${nonce}'`,
    // Attributes only: tables and figures carry their alignment and strokes in them, after the
    // allow-list.
    "style-src-attr 'unsafe-inline'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join("; ");
}

/** The page of one notebook of the desk. */
export function pageHtml(
  desk: ReviewDesk,
  place: number,
  nonce: string,
  sanitise: Sanitiser,
  reviewer: string,
): string {
  const notebook = desk.notebook(place);
  const { running } = desk.state();
  const sections = notebook.cells.map((cell) =>
    cellSection(
      notebook,
      cell,
      running?.notebook === place && running.cell === cell.number,
      sanitise,
    ),
  );
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeText(notebook.name)}: review</title>
<style nonce="${nonce}">${REPORT_STYLE}${PAGE_STYLE}</style>
</head>
<body data-notebook="${place}">
<header>
<h1>Review of ${escapeText(notebook.name)}</h1>
${toolbarHtml(notebook.cells.length)}
</header>
<main>
<p class="caution">${REVIEW_CAUTION}</p>
${notebooksHtml(desk, place)}
<div id="circumstances">${circumstancesHtml(notebook.result())}</div>
${sections.join("\n")}
${signHtml(reviewer)}
</main>
${helpHtml()}
<script nonce="${nonce}">${pageScript()}</script>
</body>
</html>
`;
}

function toolbarHtml(count: number): string {
  return `<div class="toolbar" role="group" aria-label="Steps">
<button type="button" data-action="next">Run next cell <kbd>n</kbd></button>
<span class="to"><label>Run to cell <input id="to" type="number" min="1" max="${count}" size="3"></label> <button type="button" data-action="to">Go</button></span>
<button type="button" data-action="all">Run all <kbd>e</kbd></button>
<button type="button" data-action="stop">Stop <kbd>s</kbd></button>
<button type="button" data-action="difference">Next difference <kbd>d</kbd></button>
<button type="button" data-action="help">Keys and help <kbd>?</kbd></button>
</div>
<div class="second"><p class="where"><progress id="bar" max="${count}" value="0" aria-label="cells rerun"></progress> <span id="progress" role="status"></span> <span id="running"></span> <strong id="told" role="alert"></strong></p>
<form id="look" class="look"><label>Look at a variable <input id="expression" size="28" maxlength="2000" spellcheck="false" autocomplete="off" placeholder="rows[0].ratio"></label> <button>Look <kbd>v</kbd></button></form></div>
<output id="looked" for="expression"></output>`;
}

function notebooksHtml(desk: ReviewDesk, place: number): string {
  const items = desk.notebooks.map(
    ({ name }, index) =>
      `<li><a href="${index + 1}"${index + 1 === place ? ` aria-current="page"` : ""}>${escapeText(name)}</a> <span class="outcome" data-place="${index + 1}"></span></li>`,
  );
  return `<nav aria-label="Notebooks"><ol>${items.join("")}</ol></nav>`;
}

function signHtml(reviewer: string): string {
  return `<section class="closing" aria-labelledby="closing"><h2 id="closing">Finish</h2>
<form id="sign"><label>Reviewer's name <input id="reviewer" required maxlength="200" autocomplete="name" value="${escapeText(reviewer)}"></label> <button>Sign the review</button> <span id="signed" role="status"></span></form>
<p>The signed record names you, the time, the hashes of notebooks, data and library, and for every cell the verdict, your opinion and your remark. Cells that were not rerun are recorded as not reviewed.</p>
<p><a href="report" target="_blank">Report of all notebooks so far</a>, for printing or keeping. <button type="button" data-action="over">Start this notebook over</button> <button type="button" data-action="end">End the review</button></p></section>`;
}
