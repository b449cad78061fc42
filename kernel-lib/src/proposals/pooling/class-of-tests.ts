/**
 * The tests of one class, such as one material, in one mode; each with its series where that is
 * known.
 */
export interface ClassOfTests {
  readonly label: string;
  readonly tests: readonly {
    readonly ratio: number;
    readonly bound: boolean;
    readonly series?: string;
  }[];
}

/** The statistical tests made of classes, and what they leave open. */
export interface Compared {
  readonly tests: readonly { readonly method: string; readonly p: number }[];
  /**
   * Median ratio of the lowest class over that of the highest with its interval, joint for all
   * pairs and tests; null where tests have no series.
   */
  readonly difference: {
    readonly of: string;
    readonly over: string;
    readonly ratio: number;
    readonly lower: number;
    readonly upper: number;
    readonly confidence: number;
  } | null;
  readonly warnings?: readonly string[];
}
