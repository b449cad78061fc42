import { VOLATILE_TAG, compareOutputs, meaningOf } from "../compare";
import { sourceOf, tagsOf } from "../format";
import type { CodeCell, NumberedCell } from "../format";
import type { CellRun } from "../run";
import type { CellReview } from "./cell-review";

/** Judges a rerun cell against what is recorded in the notebook. */
export function judgeCell(
  { cell, number, title }: NumberedCell,
  run: CellRun,
  defaultTolerance: number,
): CellReview {
  const tolerance = cellTolerance(cell) ?? defaultTolerance;
  const comparison = compareOutputs(cell.outputs, run.outputs, tolerance);
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
  if (comparison.verdict === "changed" && tagsOf(cell).includes(VOLATILE_TAG)) {
    return {
      ...base,
      ...details,
      rules: ["tagged-volatile"],
      verdict: "volatile",
      explanation: "differs; the cell is tagged volatile",
    };
  }
  return {
    ...base,
    ...details,
    verdict: comparison.verdict,
    explanation: explain(comparison, tolerance),
  };
}

function explain(comparison: ReturnType<typeof compareOutputs>, tolerance: number): string {
  const { verdict, differences, largest, rules } = comparison;
  const furthest = largest
    ? `largest relative difference ${largest.relative.toExponential(2)} at ${largest.where}`
    : "";
  switch (verdict) {
    case "same":
      return "";
    case "volatile":
      return `differs by the rule ${rules.join(", ")} only`;
    case "within_tolerance":
      return [
        `${furthest} (tolerance ${tolerance})`,
        ...(rules.length > 0 ? [`also differs by the rule ${rules.join(", ")}`] : []),
      ].join("; ");
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

/** Tells the reviewer that the notebook itself sets how far a cell may differ. */
export function toleranceNote({ cell, number }: NumberedCell): string[] {
  const stated = statedTolerance(cell);
  if (stated === undefined) return [];
  const used = cellTolerance(cell);
  if (used === undefined)
    return [
      `cell ${number} asks for the tolerance ${JSON.stringify(stated)}, which is no number of at least 0; the general tolerance is used`,
    ];
  return [`cell ${number} sets its own tolerance, ${used}`];
}
