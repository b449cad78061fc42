import { meaningOf } from "../compare";
import { OPINION_WORDS, VERDICT_WORDS } from "../review";
import type { CellReview } from "../review";
import { escapeText } from "../sanitise";
import type { Sanitiser } from "../sanitise";
import { MEANING_WORDS } from "./difference-notes";
import { outputsBeside } from "./outputs-beside";

/** Differences listed for one cell; beyond that their number is said. */
const MOST_DIFFERENCES = 200;

/** A reviewed cell below its heading: explanation, differences, code, recorded beside rerun. */
export function cellBodyHtml(cell: CellReview, id: string, sanitise: Sanitiser): string {
  return `${cell.explanation === "" ? "" : `<p class="explanation">${escapeText(cell.explanation)}</p>`}
${differencesHtml(cell)}
${codeHtml(cell.source)}
${outputsBeside(cell, id, sanitise)}`;
}

/** A cell's code, folded away. */
export function codeHtml(source: string): string {
  return `<details class="code"><summary>Code</summary><pre tabindex="0">${escapeText(source)}</pre></details>`;
}

/** What the reviewer said of the cell, for a report. */
export function reviewerWords({ remark, opinion }: CellReview): string {
  const words = [
    ...(opinion ? [`Reviewer: ${OPINION_WORDS[opinion]}.`] : []),
    ...(remark ? [`Remark: ${remark}`] : []),
  ];
  return words.length === 0 ? "" : `<p class="remark">${escapeText(words.join(" "))}</p>`;
}

/** The verdict as a word in a frame. */
export function verdictHtml(verdict: CellReview["verdict"]): string {
  return `<span class="verdict">${VERDICT_WORDS[verdict]}</span>`;
}

function differencesHtml(cell: CellReview): string {
  if (cell.differences.length === 0) return "";
  const rows = cell.differences.slice(0, MOST_DIFFERENCES).map((difference) => {
    const { where, recorded, rerun, relative, rule } = difference;
    const size = rule
      ? `volatile: ${rule}`
      : relative === undefined
        ? "not a number"
        : Number.isFinite(relative)
          ? relative.toExponential(2)
          : "-";
    return `<tr><th scope="row">${escapeText(where)}</th>${[recorded, rerun, size, MEANING_WORDS[meaningOf(difference, cell.tolerance)]].map((text) => `<td>${escapeText(text)}</td>`).join("")}</tr>`;
  });
  const rest = cell.differences.length - rows.length;
  const heads = ["Where", "Recorded", "Rerun", "Relative difference", "Meaning"]
    .map((head) => `<th scope="col">${head}</th>`)
    .join("");
  return `<div class="differences" tabindex="0" role="group" aria-label="differences of cell ${cell.number}"><table><caption>Differences (tolerance ${cell.tolerance})</caption><thead><tr>${heads}</tr></thead><tbody>${rows.join("")}</tbody></table></div>${rest > 0 ? `<p>and ${rest} more</p>` : ""}`;
}
