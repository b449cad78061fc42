import type { NumberedCell } from "../format";
import { sourceOf } from "../format";
import { cellBodyHtml, codeHtml, proseHtml, recordedOutputs, verdictHtml } from "../report";
import { escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";
import type { DeskNotebook } from "./desk-notebook";

/**
 * The parts of a cell's section that a run changes; the page puts them in place without touching
 * the remark box.
 */
export interface CellParts {
  readonly verdict: string;
  readonly heading: string;
  readonly body: string;
}

/** The changing parts of a cell, as it stands. */
export function cellParts(
  notebook: DeskNotebook,
  number: number,
  running: boolean,
  sanitise: Sanitiser,
): CellParts {
  const numbered = notebook.cells[number - 1];
  const review = running ? undefined : notebook.reviews[number - 1];
  const heading = (word: string): string =>
    `[${number}] ${escapeText(numbered?.title ?? "")} ${word}`;
  if (review)
    return {
      verdict: review.verdict,
      heading: heading(verdictHtml(review.verdict)),
      body: cellBodyHtml(review, `c${number}`, sanitise),
    };
  const verdict = running ? "running" : "waiting";
  return {
    verdict,
    heading: heading(`<span class="verdict">${running ? "running" : "not rerun yet"}</span>`),
    body: numbered ? waitingBody(numbered, sanitise) : "",
  };
}

/** A cell's section with the prose above it and what the reviewer says of it. */
export function cellSection(
  notebook: DeskNotebook,
  numbered: NumberedCell,
  running: boolean,
  sanitise: Sanitiser,
): string {
  const { number } = numbered;
  const { verdict, heading, body } = cellParts(notebook, number, running, sanitise);
  const prose = proseHtml(notebook.proseAbove(number), sanitise);
  return `${prose === "" ? "" : `<div class="prose">${prose}</div>`}
<section class="cell" id="cell-${number}" data-number="${number}" data-verdict="${verdict}" tabindex="-1" aria-labelledby="cell-${number}-heading">
<h2 class="cell-heading" id="cell-${number}-heading">${heading}</h2>
<p class="runto"><button type="button" data-action="run-to">Run up to this cell</button></p>
<div class="body">${body}</div>
${commentHtml(notebook, number)}
</section>`;
}

function waitingBody({ cell, number }: NumberedCell, sanitise: Sanitiser): string {
  return `${codeHtml(sourceOf(cell))}<p class="side">Recorded</p>${recordedOutputs(cell.outputs, `c${number}`, sanitise)}`;
}

function commentHtml(notebook: DeskNotebook, number: number): string {
  const { remark = "", opinion = "" } = notebook.commentOn(number);
  const choice = (value: string, words: string): string =>
    `<label><input type="radio" name="opinion-${number}" value="${value}"${value === opinion ? " checked" : ""}> ${words}</label>`;
  return `<div class="comment"><fieldset class="opinion"><legend>Your opinion</legend>${choice("", "none yet")} ${choice("agree", "agree")} ${choice("question", "question")}</fieldset>
<label class="remarked">Remark on cell ${number} <textarea maxlength="10000" rows="2" placeholder=" ">${escapeText(remark)}</textarea></label></div>`;
}
