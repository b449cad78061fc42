/** One place where rerun and recorded differ. */
export interface Difference {
  /** Where: output, row and column, trace and point, or line. */
  readonly where: string;
  readonly recorded: string;
  readonly rerun: string;
  /** |rerun - recorded| / max(|recorded|, |rerun|), for numbers. */
  readonly relative?: number;
  /** The volatile rule that accounts for the difference. */
  readonly rule?: string;
}

/** Gathers differences while outputs are walked through. */
export class DifferenceList {
  readonly found: Difference[] = [];

  constructor(readonly tolerance: number) {}

  number(where: string, recorded: number, rerun: number): void {
    if (Object.is(recorded, rerun) || recorded === rerun) return;
    this.found.push({ where, recorded: String(recorded), rerun: String(rerun), relative: relativeDifference(recorded, rerun) });
  }

  other(where: string, recorded: string, rerun: string, rule?: string): void {
    this.found.push({ where, recorded, rerun, ...(rule === undefined ? {} : { rule }) });
  }

  /** Whether a difference is more than the tolerance and the volatile rules allow. */
  isChange({ relative, rule }: Difference): boolean {
    return rule === undefined && !(relative !== undefined && relative <= this.tolerance);
  }
}

/** Relative difference of two numbers, between 0 and 2; infinite when one is not a number. */
export function relativeDifference(a: number, b: number): number {
  const size = Math.max(Math.abs(a), Math.abs(b));
  if (size === 0) return 0;
  const relative = Math.abs(a - b) / size;
  return Number.isNaN(relative) ? Infinity : relative;
}
