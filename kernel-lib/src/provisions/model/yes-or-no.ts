/**
 * The meaning of a quantity that is 1 for yes and 0 for no, in one wording for cards, hand
 * calculations and messages.
 * @param what a clause without its "whether": "the bar is steel"
 * @param no what a 0 means, where "no" does not say it
 */
export function whether(what: string, no: string = "no"): string {
  return `whether ${what}: 1 for yes, 0 for ${no}`;
}

/** What such a meaning states, without the numbers; null for a meaning of another kind. */
export function statementOf(meaning: string): string | null {
  return /^whether (.*?): 1 for yes, 0 for /.exec(meaning)?.[1] ?? null;
}
