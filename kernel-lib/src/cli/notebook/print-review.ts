import {
  VERDICT_WORDS,
  counted,
  excusedCells,
  meaningOf,
  outcomeWords,
  pairOutputs,
  verdictCounts,
  wholeText,
} from "../../notebook";
import { printableLine } from "../../formula";
import type { CellOutput, CellReview, NotebookReview } from "../../notebook";

/** Differences listed for one cell; beyond that their number is said. */
const MOST_DIFFERENCES = 200;

/** One line a cell: number, title, verdict and what it rests on. */
export function reviewLine(cell: CellReview, cellCount: number): string {
  const place = `[${cell.number}/${cellCount}]`.padStart(9);
  const explanation = cell.explanation === "" ? "" : `: ${cell.explanation}`;
  return printableLine(
    `${place} ${cell.title.padEnd(60)} ${VERDICT_WORDS[cell.verdict]}${explanation}`,
  );
}

/** What a notebook's review comes to, the cells that its author excuses one by one. */
export function reviewSummary(review: NotebookReview): string[] {
  const part =
    review.cells.length < review.cellCount
      ? ` (${review.cells.length} of ${counted(review.cellCount, "cell")} reviewed)`
      : "";
  return [
    `${review.name}: ${[`${outcomeWords(review)}${part}`, ...verdictCounts(review.cells), `${review.seconds.toFixed(1)} s`].join(", ")}`,
    ...excusedCells(review.cells).map(
      ({ number, title, explanation }) => `  excused: cell ${number} (${title}): ${explanation}`,
    ),
    ...review.notes.map((note) => `  note: ${note}`),
    ...(review.reasons.length > 0
      ? ["  since the recording:", ...review.reasons.map((reason) => `    ${reason}`)]
      : []),
  ].map(printableLine);
}

/** The differences of a cell, one a line. */
export function differenceLines(cell: CellReview): string[] {
  if (cell.differences.length === 0) return ["  no difference"];
  const lines = cell.differences.slice(0, MOST_DIFFERENCES).map((one) => {
    const { where, recorded, rerun, relative, rule } = one;
    const size = relative === undefined ? "" : `, relative ${relative.toExponential(2)}`;
    const meaning = meaningOf(one, cell.tolerance);
    return printableLine(
      `  ${where}: recorded ${recorded}, rerun ${rerun}${size}${rule ? `, volatile: ${rule}` : meaning === "within_tolerance" ? ", within tolerance" : ""}`,
    );
  });
  const rest = cell.differences.length - lines.length;
  return rest > 0 ? [...lines, `  and ${rest} more`] : lines;
}

/**
 * Recorded beside rerun, as text; ≠ stands at lines that differ. Equal text is printed once, wide
 * text one above the other.
 */
export function besideLines(cell: CellReview, width: number, most = Infinity): string[] {
  const lines = pairOutputs(cell.recorded, cell.rerun).flatMap(([recorded, rerun], index) => {
    const dataDiffer = cell.differences.some(({ place }) => place.output === index + 1);
    return pairLines(textLines(recorded), textLines(rerun), width, dataDiffer);
  });
  const rest = lines.length - most;
  return [
    ...(lines.length === 0 ? ["no output, recorded or rerun"] : lines.slice(0, most)),
    ...(rest > 0 ? [`… ${rest} more lines`] : []),
  ];
}

function pairLines(
  recorded: readonly string[],
  rerun: readonly string[],
  width: number,
  dataDiffer: boolean,
): string[] {
  const half = Math.max(20, Math.floor((width - 5) / 2));
  const differ = (index: number): boolean => recorded[index] !== rerun[index];
  const wide = [...recorded, ...rerun].some((line) => line.length > half);
  if (recorded.length === rerun.length && !recorded.some((_, index) => differ(index)))
    return [
      `recorded and rerun, the same text${dataDiffer ? ", but the data behind it differ (d lists how)" : ""}:`,
      ...recorded.map((line) => `  ${line}`),
    ];
  if (wide) {
    const block = (name: string, lines: readonly string[]): string[] => [
      `${name}:`,
      ...lines.map((line, index) => `${differ(index) ? "≠" : " "} ${line}`),
    ];
    return [...block("recorded", recorded), ...block("rerun", rerun)];
  }
  const rows = Array.from({ length: Math.max(recorded.length, rerun.length) }, (_, index) =>
    `  ${(recorded[index] ?? "").padEnd(half)} ${differ(index) ? "≠" : "|"} ${rerun[index] ?? ""}`.trimEnd(),
  );
  return [`  ${"recorded".padEnd(half)} | rerun`, ...rows];
}

function textLines(output: CellOutput | undefined): string[] {
  return output === undefined ? [] : outputText(output).replace(/\t/g, "  ").trimEnd().split("\n");
}

function outputText(output: CellOutput): string {
  if (output.output_type === "stream") return wholeText(output.text);
  if (output.output_type === "error") return output.traceback.join("\n");
  const text = output.data["text/plain"];
  return typeof text === "string" || Array.isArray(text)
    ? wholeText(text as string | string[])
    : Object.keys(output.data).join(", ");
}
