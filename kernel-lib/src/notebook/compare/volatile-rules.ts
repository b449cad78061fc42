/** A kind of printed text that may differ from run to run without any result having changed. */
export interface VolatileRule {
  readonly name: string;
  readonly says: string;
  readonly pattern: RegExp;
}

/** The tag that declares all outputs of a cell volatile. */
export const VOLATILE_TAG = "volatile";

/**
 * All rules, in the order they are tried. A rule that accounts for a difference is named in the
 * review, so that nothing is passed over unseen.
 */
export const VOLATILE_RULES: readonly VolatileRule[] = [
  {
    name: "date-and-time",
    says: "a date with a time of day, such as 2026-01-31T12:00:00Z",
    pattern: /\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:?\d{2})?/g,
  },
  {
    name: "elapsed-time",
    says: "a time taken, such as: took 12.3 ms",
    pattern:
      /\b(?:took|elapsed|in|after)[: ]+\d+(?:\.\d+)? ?(?:ms|s|min|milliseconds|seconds|minutes)\b/gi,
  },
  {
    name: "machine-path",
    says: "an absolute path of the machine",
    pattern: /(?:\/(?:home|Users|root|tmp|var|opt|work)\/[^\s:'")]+)|(?:\b[A-Z]:\\[^\s:'")]+)/g,
  },
];
