import type { EvidenceColumn } from "./evidence-row";

/** How groups are judged. */
export interface JudgeOptions {
  /** Default 0.05. */
  readonly fractile?: number;
  /** One-sided confidence of each bound; default 0.90. */
  readonly confidence?: number;
  /** Default: that of the code's family. */
  readonly distribution?: "normal" | "lognormal";
  /** Columns within which the mean ratio may differ; default: those with which it does. */
  readonly cells?: readonly EvidenceColumn[];
}
