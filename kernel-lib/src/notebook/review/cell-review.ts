import type { CellOutput } from "../format";
import type { Difference } from "../compare";

/** What a rerun says of one cell. */
export type CellVerdict =
  "same" | "within_tolerance" | "changed" | "failed" | "not_recorded" | "excused";

/** The verdicts in plain words. */
export const VERDICT_WORDS: Readonly<Record<CellVerdict, string>> = {
  same: "same",
  within_tolerance: "same within tolerance",
  changed: "CHANGED",
  failed: "FAILED",
  not_recorded: "not recorded",
  excused: "excused by the author",
};

/** What the reviewer, as a person, says of a cell; the verdict is the program's. */
export type ReviewerOpinion = "agree" | "question";

export const OPINION_WORDS: Readonly<Record<ReviewerOpinion, string>> = {
  agree: "agreed",
  question: "questioned",
};

export interface CellReview {
  readonly number: number;
  readonly id: string;
  readonly title: string;
  readonly source: string;
  readonly verdict: CellVerdict;
  /** One line in plain words: the largest difference and where, the error, the rule that fired. */
  readonly explanation: string;
  readonly differences: readonly Difference[];
  readonly largest?: { readonly relative: number; readonly where: string };
  readonly rules: readonly string[];
  readonly tolerance: number;
  readonly seconds: number;
  readonly recorded: readonly CellOutput[];
  readonly rerun: readonly CellOutput[];
  remark?: string;
  opinion?: ReviewerOpinion;
}

export interface NotebookReview {
  /** The notebook's file name, without its folders. */
  readonly name: string;
  /** SHA-256 of the notebook that was reviewed. */
  readonly hash: string;
  readonly cells: readonly CellReview[];
  /** True when every reviewed cell is the same or the same within tolerance; none is excused. */
  readonly reproduced: boolean;
  /** Code cells in the notebook; fewer are reviewed when the review was ended before. */
  readonly cellCount: number;
  /** What has changed since the outputs were recorded, and may account for a difference. */
  readonly reasons: readonly string[];
  /** What else a reviewer should know. */
  readonly notes: readonly string[];
  readonly seconds: number;
}
