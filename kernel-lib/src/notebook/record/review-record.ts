import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { NotebookProblem, writeWhole } from "../format";
import { outcomeOf } from "../review";
import type { CellVerdict, NotebookReview, ReviewerOpinion } from "../review";
import { projectFolder, recordEnvironment } from "../run";
import type { RecordedEnvironment } from "../run";
import { REVIEW_RECORD_SCHEMA } from "./review-record-schema";

/** A signed-off review: who, when, of what, and the verdict and remark for each cell. */
export interface ReviewRecord {
  readonly schema: "code-comparison-review/3";
  readonly reviewer: string;
  /** When it was signed, ISO 8601 in UTC. */
  readonly signed: string;
  readonly reproduced: boolean;
  /** Whether the reviewer accepts the cells that their author excuses. */
  readonly excused_accepted: boolean;
  /** What the review ran with. */
  readonly environment: RecordedEnvironment;
  readonly notebooks: readonly {
    readonly name: string;
    readonly sha256: string;
    readonly reproduced: boolean;
    readonly code_cells: number;
    readonly reasons: readonly string[];
    readonly notes: readonly string[];
    readonly cells: readonly {
      readonly number: number;
      readonly id: string;
      readonly verdict: CellVerdict;
      readonly explanation: string;
      readonly tolerance: number;
      readonly largest_relative_difference: number | null;
      /** What the reviewer says of the cell, as a person; empty when nothing was said. */
      readonly opinion: "" | ReviewerOpinion;
      readonly remark: string;
    }[];
  }[];
}

/** Makes the record of a review. */
export async function makeReviewRecord(
  reviews: readonly NotebookReview[],
  reviewer: string,
  inputs: readonly string[],
  { now = new Date(), acceptExcused = false }: { now?: Date; acceptExcused?: boolean } = {},
): Promise<ReviewRecord> {
  const name = reviewer.trim();
  if (name === "")
    throw new NotebookProblem(
      'a signed review needs the reviewer\'s name, such as --sign "A. Reviewer"',
    );
  return {
    schema: "code-comparison-review/3",
    reviewer: name,
    signed: now.toISOString(),
    // A review that was ended before the last cell proves nothing about the rest.
    reproduced:
      reviews.length > 0 &&
      reviews.every(
        ({ reproduced, cells, cellCount }) =>
          cells.length === cellCount &&
          (reproduced || (acceptExcused && outcomeOf(cells, cellCount) === "excused")),
      ),
    excused_accepted: acceptExcused,
    environment: await recordEnvironment(projectFolder(process.cwd()), inputs),
    notebooks: reviews.map((review) => ({
      name: review.name,
      sha256: review.hash,
      reproduced: review.reproduced,
      code_cells: review.cellCount,
      reasons: review.reasons,
      notes: review.notes,
      cells: review.cells.map((cell) => ({
        number: cell.number,
        id: cell.id,
        verdict: cell.verdict,
        explanation: cell.explanation,
        tolerance: cell.tolerance,
        // Infinity (a number against a missing one) has no place in JSON.
        largest_relative_difference:
          cell.largest && Number.isFinite(cell.largest.relative) ? cell.largest.relative : null,
        opinion: cell.opinion ?? "",
        remark: cell.remark ?? "",
      })),
    })),
  };
}

/** Writes the record atomically. */
export async function writeReviewRecord(file: string, record: ReviewRecord): Promise<void> {
  await writeWhole(file, recordText(record));
}

/** SHA-256 of the record's file. */
export function recordSha256(record: ReviewRecord): string {
  return createHash("sha256").update(recordText(record)).digest("hex");
}

function recordText(record: ReviewRecord): string {
  return `${JSON.stringify(record, null, 2)}\n`;
}

/**
 * Reads a record and checks it against the schema.
 *
 * @throws NotebookProblem when the file is missing, or is no review record
 */
export async function readReviewRecord(file: string): Promise<ReviewRecord> {
  const text = await readFile(file, "utf8").catch((error: Error) => {
    throw new NotebookProblem(`there is no review record ${file}`, { cause: error });
  });
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new NotebookProblem(
      `${file} is no review record: it is no valid JSON (${(error as Error).message})`,
      { cause: error },
    );
  }
  const { Ajv2020 } = await import("ajv/dist/2020.js");
  const ajv = new Ajv2020();
  if (!ajv.validate(REVIEW_RECORD_SCHEMA, value))
    throw new NotebookProblem(`${file} is no review record: ${ajv.errorsText()}`);
  return value as ReviewRecord;
}
