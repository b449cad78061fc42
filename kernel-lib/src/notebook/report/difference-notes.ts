import { TABLE_TYPE, meaningOf } from "../compare";
import type { Difference, DifferenceMeaning } from "../compare";
import type { CellReview } from "../review";

export type Side = "recorded" | "rerun";

/** What a difference means, in words. */
export const MEANING_WORDS: Readonly<Record<DifferenceMeaning, string>> = {
  changed: "changed",
  within_tolerance: "within tolerance",
  volatile: "volatile",
};

/**
 * Notes in words at the places of one output, as one of the two sides shows it, where the other
 * side differs.
 */
export interface OutputNotes {
  /** For a cell of a table, found by the row and column that its markup names. */
  readonly ofElement: (element: Element) => string | undefined;
  /** For a line of text, by its number from 1, in the form (media type) that is shown. */
  readonly ofLine: (line: number, form?: string) => string | undefined;
  /** Whether there is such a line on either side. */
  readonly linesDiffer: boolean;
}

/** Gathers the notes of a cell's pair of outputs (from 1) for one side. */
export function notesOf(cell: CellReview, output: number, side: Side): OutputNotes {
  const here = cell.differences.filter(({ place }) => place.output === output);
  const cells = new Map<string, string>();
  for (const difference of here.filter(({ place }) => place.form === TABLE_TYPE && place.row)) {
    const { row = [], column = "" } = difference.place;
    const key = `${row.map(encodeURIComponent).join("/")}\n${column}`;
    if (!cells.has(key)) cells.set(key, noteText(difference, cell.tolerance, side));
  }
  const lineOf = ({ place }: Difference): number | undefined =>
    side === "recorded" ? place.recordedLine : place.rerunLine;
  return {
    linesDiffer: here.some(
      ({ place }) => place.recordedLine !== undefined || place.rerunLine !== undefined,
    ),
    ofElement: (element) => {
      const row = element.closest("tr[data-row-key]");
      if (!row || element.parentElement !== row) return undefined;
      const key = row.getAttribute("data-row-key") ?? "";
      // A row that the other side lacks is said once, at its head.
      return (
        cells.get(`${key}\n${element.getAttribute("data-column") ?? ""}`) ??
        (element === row.firstElementChild ? cells.get(`${key}\n`) : undefined)
      );
    },
    ofLine: (line, form) => {
      const found = here.filter(
        (difference) => difference.place.form === form && lineOf(difference) === line,
      );
      const worst = found.find((one) => meaningOf(one, cell.tolerance) === "changed") ?? found[0];
      return worst && MEANING_WORDS[meaningOf(worst, cell.tolerance)];
    },
  };
}

function noteText(difference: Difference, tolerance: number, side: Side): string {
  const meaning = meaningOf(difference, tolerance);
  if (meaning !== "changed") return `(${MEANING_WORDS[meaning]})`;
  if (difference.place.column === undefined)
    return side === "recorded" ? "(no such row in the rerun)" : "(no such row recorded)";
  const [recorded, rerun] = shortened(difference);
  return side === "recorded" ? `(changed: rerun ${rerun})` : `(changed: recorded ${recorded})`;
}

/**
 * Two numbers with no more digits than tell them apart, four at least; the list of differences
 * gives all.
 */
function shortened({ recorded, rerun, relative }: Difference): [string, string] {
  if (relative === undefined) return [recorded, rerun];
  for (let digits = 4; digits < 17; digits++) {
    const [a, b] = [Number(recorded).toPrecision(digits), Number(rerun).toPrecision(digits)];
    if (a !== b) return [String(Number(a)), String(Number(b))];
  }
  return [recorded, rerun];
}
