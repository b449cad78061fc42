import { counted, significant } from "../reading";
import type { Account, NotEstimable } from "../result";
import { notEstimable } from "../result";

/** One row of a table: a single test, or the mean of several. */
export interface ReplicateRow {
  /** The value, or the mean of the replicates. */
  mean: number;
  /** Number of specimens the row stands for; 1 for a single test. */
  replicates: number;
  /** SD of the replicates where it was reported; NaN, null or absent where not. */
  sd?: number | null;
}

/** What rows that are means of replicates can and cannot say. */
export interface ReplicateSummary extends Account {
  status: "ok";
  rows: number;
  /** Specimens behind the rows: the sum of the replicates. */
  specimens: number;
  /** Mean weighted by replicates: the mean of all specimens. */
  weightedMean: number;
  /** SD within rows, pooled over the rows that report one; null where none does. */
  withinSd: number | null;
  withinDegreesOfFreedom: number;
  /**
   * SD of single specimens over all rows, exact where every mean has its SD; null where scatter is
   * hidden.
   */
  specimenSd: number | null;
  /** Specimens in rows of several whose SD was not reported: their scatter is hidden. */
  hiddenSpecimens: number;
}

/**
 * Joins rows that are single tests or means of replicates.
 *
 * Weighted mean Σ m_i x̄_i / Σ m_i; pooled within-row SD √[Σ (m_i − 1) s_i² / Σ (m_i − 1)]; where
 * no scatter is hidden the specimen SD √{[Σ (m_i − 1) s_i² + Σ m_i (x̄_i − x̄)²]/(N − 1)} equals
 * that of the N single values.
 * @throws RangeError for replicates that are not whole numbers of at least 1, or a negative SD
 */
export function replicateRows(rows: readonly ReplicateRow[]): ReplicateSummary | NotEstimable {
  const method = "Rows joined by their replicates";
  rows.forEach(requireRow);
  const used = rows.filter((row) => !Number.isNaN(row.mean));
  const missing = rows.length - used.length;
  const excluded = missing > 0 ? [{ count: missing, reason: "missing value" }] : [];
  if (used.length === 0)
    return notEstimable(method, "too few values", "at least one row with a value", 0, excluded);
  const specimens = used.reduce((sum, row) => sum + row.replicates, 0);
  const weightedMean = used.reduce((sum, row) => sum + (row.replicates / specimens) * row.mean, 0);
  const several = used.filter((row) => row.replicates > 1);
  const told = several.filter((row) => typeof row.sd === "number" && !Number.isNaN(row.sd));
  const hiddenSpecimens = several
    .filter((row) => !told.includes(row))
    .reduce((sum, row) => sum + row.replicates, 0);
  const withinDegreesOfFreedom = told.reduce((sum, row) => sum + row.replicates - 1, 0);
  const withinSquares = told.reduce(
    (sum, row) => sum + (row.replicates - 1) * (row.sd as number) ** 2,
    0,
  );
  const betweenSquares = used.reduce(
    (sum, row) => sum + row.replicates * (row.mean - weightedMean) ** 2,
    0,
  );
  const withinSd =
    withinDegreesOfFreedom > 0 ? Math.sqrt(withinSquares / withinDegreesOfFreedom) : null;
  const specimenSd =
    hiddenSpecimens === 0 && specimens > 1
      ? Math.sqrt((withinSquares + betweenSquares) / (specimens - 1))
      : null;
  return {
    status: "ok",
    method,
    excluded,
    n: used.length,
    rows: used.length,
    specimens,
    weightedMean,
    withinSd,
    withinDegreesOfFreedom,
    specimenSd,
    hiddenSpecimens,
    assumptions: ["specimens of a row of one population", "reported SDs have divisor m − 1"],
    reading: read(used.length, specimens, weightedMean, specimenSd, hiddenSpecimens),
  };
}

function read(
  rows: number,
  specimens: number,
  centre: number,
  sd: number | null,
  hidden: number,
): string {
  const head = `${counted(rows, "row")} for ${counted(specimens, "specimen")}, mean ${significant(centre)}`;
  if (hidden > 0) {
    return `${head}; the scatter of ${counted(hidden, "specimen")} is hidden in means without a reported SD, so these rows do not give the SD or any characteristic value of single specimens.`;
  }
  return sd === null
    ? `${head}; one specimen gives no information on scatter.`
    : `${head}, SD of single specimens ${significant(sd)}.`;
}

function requireRow(row: ReplicateRow, index: number): void {
  if (!Number.isInteger(row.replicates) || row.replicates < 1) {
    throw new RangeError(
      `replicateRows: replicates of row ${index} are ${row.replicates}, expected a whole number of at least 1`,
    );
  }
  if (typeof row.sd === "number" && row.sd < 0)
    throw new RangeError(`replicateRows: sd of row ${index} is ${row.sd}, expected zero or more`);
  if (Math.abs(row.mean) === Infinity)
    throw new RangeError(
      `replicateRows: mean of row ${index} is ${row.mean}, expected a finite number`,
    );
}
