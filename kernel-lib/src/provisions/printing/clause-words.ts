import { clauseOf } from "../model/reasons";

/**
 * The clause of a provision in words, after `before`: "clause 17.6.5". A model or a product that no
 * clause states has none, so nothing is said.
 */
export function clauseWords(id: string, before = ""): string {
  const clause = clauseOf(id);
  return /^\d/.test(clause) ? `${before}clause ${clause}` : "";
}
