import type { RatioMode, Status } from "../../comparison";
import type { Level } from "../../provisions";
import type { CodeId, Mode, ProvisionId } from "../results/generated-names";
import type { TestRow } from "../tests/study-row";

/** A mode that is judged: that of a provision, or tension and shear together. */
export type JudgedMode = Mode | "interaction";

/** One pair of test and provision: the columns of the test and those of the comparison. */
export interface EvidenceRow extends TestRow {
  readonly code: CodeId;
  readonly provision: ProvisionId;
  readonly clause: string;
  readonly level: Level;
  /** Mode of the provision judged. */
  readonly mode: RatioMode | "unknown";
  /** kN; the peak load, times the factor on confined bond tests where one is stated. */
  readonly load_kN: number;
  readonly capacity_kN: number;
  readonly ratio: number;
  readonly lower_bound: "yes" | "no";
  readonly status: Status;
  /** Why the pair is not judged; null where it is. */
  readonly reason: string | null;
}

/** The columns that a comparison adds to those of the tests. */
export const COMPARISON_COLUMNS = [
  "code",
  "provision",
  "clause",
  "level",
  "mode",
  "load_kN",
  "capacity_kN",
  "ratio",
  "lower_bound",
  "status",
  "reason",
] as const satisfies readonly (keyof EvidenceRow)[];

/** A column of the evidence. */
export type EvidenceColumn = keyof EvidenceRow;
