import { TABLE_TYPE, pairOutputs } from "../compare";
import { wholeText } from "../format";
import type { CellOutput } from "../format";
import type { CellReview } from "../review";
import type { Sanitiser } from "../sanitise";
import { notesOf } from "./difference-notes";
import type { Side } from "./difference-notes";
import { isPicture, outputHtml } from "./output-html";

/** Ways to look at two pictures; the first is how they stand at the beginning. */
const VIEWS = [
  ["beside", "side by side"],
  ["overlaid", "rerun laid over recorded"],
  ["recorded", "recorded alone"],
  ["rerun", "rerun alone"],
] as const;

/**
 * A cell's recorded outputs beside those of the rerun, pair by pair. `id` is unique on the page.
 */
export function outputsBeside(cell: CellReview, id: string, sanitise: Sanitiser): string {
  const pairs = pairOutputs(cell.recorded, cell.rerun);
  if (pairs.length === 0) return `<p class="none">no output, recorded or rerun</p>`;
  return pairs
    .map(([recorded, rerun], index) => {
      const half = (side: Side, output: CellOutput | undefined): string => {
        const setting = {
          sanitise,
          idPrefix: `${id}-${index + 1}-${side}-`,
          notes: notesOf(cell, index + 1, side),
        };
        return `<div class="half ${side}"><p class="side">${side === "recorded" ? "Recorded" : "Rerun"}</p>${output ? outputHtml(output, setting) : `<p class="none"><strong class="differs">no such output</strong></p>`}</div>`;
      };
      if (recorded && rerun && sameBytes(recorded, rerun))
        return `<div class="pair"><div class="half recorded"><p class="side">Recorded and rerun, the same</p>${outputHtml(recorded, { sanitise, idPrefix: `${id}-${index + 1}-` })}</div></div>`;
      const pictures = recorded && rerun && isPicture(recorded) && isPicture(rerun);
      const kind = pictures ? " pictures" : [recorded, rerun].some(isWide) ? " wide" : "";
      return `<div class="pair${kind}">${pictures ? viewChoice(`${id}-${index + 1}-view`) : ""}<div class="halves">${half("recorded", recorded)}${half("rerun", rerun)}</div></div>`;
    })
    .join("\n");
}

/** Whether two outputs are the same, the run counter aside. */
function sameBytes(recorded: CellOutput, rerun: CellOutput): boolean {
  const text = (output: CellOutput): string =>
    JSON.stringify(
      output.output_type === "stream"
        ? { ...output, text: wholeText(output.text) }
        : "data" in output
          ? [
              output.output_type,
              Object.entries(output.data)
                .map(([type, data]) => [type, joined(data)])
                .sort(),
              output.metadata,
            ]
          : output,
    );
  return text(recorded) === text(rerun);
}

function joined(data: unknown): unknown {
  return Array.isArray(data) && data.every((line) => typeof line === "string")
    ? data.join("")
    : data;
}

/**
 * Columns beyond which two tables stand one above the other, as side by side they would not fit.
 */
const MOST_COLUMNS_BESIDE = 7;

function isWide(output: CellOutput | undefined): boolean {
  const table =
    output && "data" in output
      ? (output.data[TABLE_TYPE] as { columns?: unknown } | null | undefined)
      : undefined;
  return Array.isArray(table?.columns) && table.columns.length > MOST_COLUMNS_BESIDE;
}

/** A cell's recorded outputs alone, before it has been rerun. */
export function recordedOutputs(
  outputs: readonly CellOutput[],
  id: string,
  sanitise: Sanitiser,
): string {
  if (outputs.length === 0) return `<p class="none">no output recorded</p>`;
  return outputs
    .map(
      (output, index) =>
        `<div class="half recorded">${outputHtml(output, { sanitise, idPrefix: `${id}-${index + 1}-` })}</div>`,
    )
    .join("\n");
}

// Radio buttons work without a script: the style sheet alone lays the pictures over each other.
function viewChoice(name: string): string {
  const choices = VIEWS.map(
    ([value, words], index) =>
      `<label><input type="radio" name="${name}" value="${value}"${index === 0 ? " checked" : ""}> ${words}</label>`,
  );
  return `<fieldset class="view"><legend>Figures</legend>${choices.join(" ")}</fieldset>`;
}
