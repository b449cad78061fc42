/** A rule that finds values which are possible to type but implausible. */
export interface SuspicionRule {
  readonly name: string;
  readonly column: string;
  readonly expected: string;
  /** The sentence part after the row's name, or null when the row is in order. */
  readonly finding: (
    value: (column: string) => number,
    text: (column: string) => string | null,
  ) => string | null;
}
