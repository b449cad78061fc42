import { VERDICT_WORDS, wholeText } from "../../notebook";
import type { CellOutput, CellReview, NotebookReview } from "../../notebook";

/** One line a cell: number, title, verdict and what it rests on. */
export function reviewLine(cell: CellReview, cellCount: number): string {
  const place = `[${cell.number}/${cellCount}]`.padStart(9);
  const explanation = cell.explanation === "" ? "" : `: ${cell.explanation}`;
  return `${place} ${cell.title.padEnd(60)} ${VERDICT_WORDS[cell.verdict]}${explanation}`;
}

/** What a notebook's review comes to. */
export function reviewSummary(review: NotebookReview): string[] {
  const counts = Object.entries(VERDICT_WORDS).flatMap(([verdict, word]) => {
    const count = review.cells.filter((cell) => cell.verdict === verdict).length;
    return count === 0 ? [] : [`${count} ${word}`];
  });
  const part = review.cells.length < review.cellCount ? ` (${review.cells.length} of ${review.cellCount} cells reviewed)` : "";
  const lines = [`${review.name}: ${review.reproduced ? "reproduced" : "NOT reproduced"}${part}, ${counts.join(", ")}, ${review.seconds.toFixed(1)} s`];
  for (const note of review.notes) lines.push(`  note: ${note}`);
  if (!review.reproduced && review.reasons.length > 0) lines.push("  since the recording:", ...review.reasons.map((reason) => `    ${reason}`));
  return lines;
}

/** Every difference of a cell, one a line. */
export function differenceLines(cell: CellReview): string[] {
  if (cell.differences.length === 0) return ["  no difference"];
  return cell.differences.map(({ where, recorded, rerun, relative, rule }) => {
    const size = relative === undefined ? "" : `, relative ${relative.toExponential(2)}`;
    return `  ${where}: recorded ${recorded}, rerun ${rerun}${size}${rule ? `, volatile: ${rule}` : ""}`;
  });
}

/** Recorded beside rerun, as text in two columns. */
export function besideLines(cell: CellReview, width: number): string[] {
  const half = Math.max(20, Math.floor((width - 3) / 2));
  const [left, right] = [["recorded", ...textLines(cell.recorded)], ["rerun", ...textLines(cell.rerun)]];
  const rows = Math.min(40, Math.max(left.length, right.length));
  return Array.from({ length: rows }, (_, index) => `${cut(left[index], half)} | ${cut(right[index], half).trimEnd()}`);
}

function cut(text: string | undefined, width: number): string {
  return (text ?? "").slice(0, width).padEnd(width);
}

function textLines(outputs: readonly CellOutput[]): string[] {
  return outputs.flatMap((output) => outputText(output).trimEnd().split("\n"));
}

function outputText(output: CellOutput): string {
  if (output.output_type === "stream") return wholeText(output.text);
  if (output.output_type === "error") return output.traceback.join("\n");
  const text = output.data["text/plain"];
  return typeof text === "string" || Array.isArray(text) ? wholeText(text as string | string[]) : Object.keys(output.data).join(", ");
}
