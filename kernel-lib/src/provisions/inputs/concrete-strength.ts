import { TO_CYLINDER, type StrengthRule } from "../../dataset";

export type { StrengthRule } from "../../dataset";

/**
 * The rules of the data by the word of a basis; `unknown` has none, so that such a row is not
 * predicted unless the reader says what to assume.
 */
export const CYLINDER_FACTOR: Readonly<Record<string, StrengthRule>> = TO_CYLINDER;
