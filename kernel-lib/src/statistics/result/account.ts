/** Values left out of a calculation, with the reason. */
export interface Excluded {
  count: number;
  reason: string;
}

/** What every statistical answer carries besides its numbers. */
export interface Account {
  /** Name of the method. */
  method: string;
  /** What must hold for the answer to mean what it says. */
  assumptions: readonly string[];
  /** Number of values used. */
  n: number;
  /** Values not used, and why. Empty when all were used. */
  excluded: readonly Excluded[];
  /** One sentence in plain words, right for this outcome. */
  reading: string;
}

/** Why a question has no answer from these data. */
export type NotEstimableReason =
  | "too few values"
  | "no spread"
  | "values not positive"
  | "too few groups"
  | "too few series"
  | "mean too close to zero"
  | "no finite bound"
  | "nothing failed"
  | "too few failures"
  | "one series only"
  | "no maximum"
  | "method does not apply"
  | "too many failed resamples"
  | "columns not independent"
  | "search without end";

/**
 * The named result of a question the data cannot answer: never a NaN dressed as a number. Every
 * function of `statistics` that may find no answer returns this one shape, distinguished by `status`.
 */
export interface NotEstimable extends Account {
  status: "cannot be estimated";
  reason: NotEstimableReason;
  /** What would be needed. */
  needed: string;
}

/** The named "cannot be estimated" result; its reading says the method, the reason and the need. */
export function notEstimable(
  method: string,
  reason: NotEstimableReason,
  needed: string,
  n: number,
  excluded: readonly Excluded[] = [],
): NotEstimable {
  return {
    status: "cannot be estimated",
    method,
    assumptions: [],
    n,
    excluded,
    reason,
    needed,
    reading: `${method}: cannot be estimated, ${reason} (n = ${n}); needed: ${needed}.`,
  };
}
