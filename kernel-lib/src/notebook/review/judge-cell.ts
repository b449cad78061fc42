import { VOLATILE_TAG, compareOutputs, meaningOf } from "../compare";
import type { Difference, OutputComparison } from "../compare";
import { sourceOf, tagsOf } from "../format";
import type { CodeCell, NumberedCell } from "../format";
import type { CellRun } from "../run";
import type { CellReview } from "./cell-review";

/** The widest relative tolerance that a notebook may set for its own cells. */
export const MOST_OWN_TOLERANCE = 1e-6;

/**
 * Judges a rerun cell against what is recorded in the notebook. What only the notebook's own wish
 * accounts for (a tolerance above the limit, the tag "volatile", a masked phrase) is "excused".
 * `found` is what the outputs of the rerun say against themselves.
 */
export function judgeCell(
  { cell, number, title }: NumberedCell,
  run: CellRun,
  defaultTolerance: number,
  found: readonly Difference[] = [],
): CellReview {
  const stated = cellTolerance(cell);
  const tolerance =
    stated === undefined
      ? defaultTolerance
      : Math.min(stated, Math.max(MOST_OWN_TOLERANCE, defaultTolerance));
  const compared = (allowed: number): OutputComparison =>
    withFound(compareOutputs(cell.outputs, run.outputs, allowed), found);
  const comparison = compared(tolerance);
  const base = {
    number,
    id: cell.id,
    title,
    source: sourceOf(cell),
    tolerance,
    seconds: run.seconds,
    recorded: cell.outputs,
    rerun: [...run.outputs],
  };
  const details = {
    differences: comparison.differences,
    rules: comparison.rules,
    ...(comparison.largest ? { largest: comparison.largest } : {}),
  };
  if (run.status !== "ok")
    return { ...base, ...details, verdict: "failed", explanation: run.message ?? run.status };
  if (cell.outputs.length === 0 && cell.execution_count === null && sourceOf(cell).trim() !== "") {
    return {
      ...base,
      differences: [],
      rules: [],
      verdict: "not_recorded",
      explanation: "the notebook holds no record of a run of this cell",
    };
  }
  const excuse = excuseOf(cell, comparison, compared, stated);
  if (excuse !== undefined)
    return {
      ...base,
      ...details,
      rules: [...comparison.rules, ...excuse.rules],
      verdict: "excused",
      explanation: [excuse.says, explain(comparison, tolerance)]
        .filter((part) => part !== "")
        .join("; "),
    };
  return {
    ...base,
    ...details,
    verdict: comparison.verdict === "volatile" ? "excused" : comparison.verdict,
    explanation: explain(comparison, tolerance),
  };
}

function withFound(comparison: OutputComparison, found: readonly Difference[]): OutputComparison {
  return found.length === 0
    ? comparison
    : { ...comparison, verdict: "changed", differences: [...comparison.differences, ...found] };
}

interface Excuse {
  readonly says: string;
  readonly rules: readonly string[];
}

/** By what wish of the author's a cell that differs may differ; undefined where there is none. */
function excuseOf(
  cell: CodeCell,
  { verdict, rules, differences }: OutputComparison,
  compared: (allowed: number) => OutputComparison,
  stated: number | undefined,
): Excuse | undefined {
  if (verdict !== "changed")
    return rules.length === 0
      ? undefined
      : { says: `masked phrase (${rules.join(", ")}): ${maskedPhrases(differences)}`, rules: [] };
  if (stated !== undefined && compared(stated).verdict !== "changed")
    return {
      says: `beyond the limit of ${MOST_OWN_TOLERANCE}, within the cell's own tolerance of ${stated}`,
      rules: ["own-tolerance"],
    };
  return tagsOf(cell).includes(VOLATILE_TAG)
    ? { says: "the cell is tagged volatile", rules: ["tagged-volatile"] }
    : undefined;
}

/** The masked phrases of a cell, the first three in full. */
function maskedPhrases(differences: readonly Difference[]): string {
  const masked = differences.filter(({ rule }) => rule !== undefined);
  const shown = masked
    .slice(0, 3)
    .map(({ recorded, rerun }) => `"${recorded.trim()}" is now "${rerun.trim()}"`);
  const rest = masked.length - shown.length;
  return [...shown, ...(rest > 0 ? [`and ${rest} more`] : [])].join(", ");
}

function explain(comparison: OutputComparison, tolerance: number): string {
  const { verdict, differences, largest } = comparison;
  const furthest = largest
    ? `largest relative difference ${largest.relative.toExponential(2)} at ${largest.where}`
    : "";
  switch (verdict) {
    case "same":
    case "volatile":
      return "";
    case "within_tolerance":
      return `${furthest} (tolerance ${tolerance})`;
    case "changed": {
      const first = differences.find((one) => meaningOf(one, tolerance) === "changed");
      const example = first
        ? `${first.where}: recorded ${first.recorded}, rerun ${first.rerun}`
        : "";
      return [
        `${differences.length} difference${differences.length === 1 ? "" : "s"}`,
        example,
        furthest,
      ]
        .filter((part) => part !== "")
        .join("; ");
    }
  }
}

/** A cell's own tolerance, from its metadata `code_comparison.tolerance`. */
function cellTolerance(cell: CodeCell): number | undefined {
  const tolerance = statedTolerance(cell);
  return typeof tolerance === "number" && tolerance >= 0 ? tolerance : undefined;
}

function statedTolerance(cell: CodeCell): unknown {
  const own = cell.metadata["code_comparison"];
  return typeof own === "object" && own !== null
    ? (own as { tolerance?: unknown }).tolerance
    : undefined;
}

/** Tells the reviewer what the notebook itself sets for how far a cell may differ. */
export function excuseNotes({ cell, number }: NumberedCell): string[] {
  const stated = statedTolerance(cell);
  const used = cellTolerance(cell);
  return [
    ...(stated === undefined
      ? []
      : [
          used === undefined
            ? `cell ${number} asks for the tolerance ${JSON.stringify(stated)}, which is no number of at least 0; the general tolerance is used`
            : `cell ${number} sets its own tolerance, ${used}${used > MOST_OWN_TOLERANCE ? `; what exceeds ${MOST_OWN_TOLERANCE} is listed as excused` : ""}`,
        ]),
    ...(tagsOf(cell).includes(VOLATILE_TAG)
      ? [`cell ${number} is tagged volatile: its author lets it differ`]
      : []),
  ];
}
