/** Why a regression gives no answer. */
export type RegressionErrorCode =
  | "too_few_rows"
  | "rank_deficient"
  | "unequal_lengths"
  | "invalid_weight"
  | "not_positive"
  | "missing_column"
  | "one_class"
  | "one_study"
  | "too_few_failures"
  | "no_convergence"
  | "exact_leverage"
  | "invalid_option";

/** A regression that cannot be made; `code` names the reason, the message says what is needed. */
export class RegressionError extends Error {
  override readonly name = "RegressionError";

  constructor(
    readonly code: RegressionErrorCode,
    message: string,
  ) {
    super(message);
  }
}

/** A column of the model is a combination of the others: the coefficients are not unique. */
export class RankDeficientError extends RegressionError {
  /**
   * Names of the columns that must be dropped or merged, each with the columns that determine it.
   */
  readonly dependences: readonly { readonly column: string; readonly of: readonly string[] }[];

  constructor(dependences: readonly { readonly column: string; readonly of: readonly string[] }[]) {
    const parts = dependences.map(({ column, of }) =>
      of.length === 0
        ? `"${column}" is zero in every row`
        : `"${column}" is a combination of ${of.map((name) => `"${name}"`).join(", ")}`,
    );
    super(
      "rank_deficient",
      `The columns of the model are not independent: ${parts.join("; ")}. Expected independent columns; drop or merge one of those named`,
    );
    this.dependences = dependences;
  }
}
