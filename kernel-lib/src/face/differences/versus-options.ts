import { PROVENANCES, testColumn } from "../../dataset";
import { knownName } from "../results/names";
import type { CategoryColumn } from "../tests/study-row";

/** How groups are compared with a reference. */
export interface VersusOptions<C extends CategoryColumn = "bar_material"> {
  /** The column that holds the classes; default `bar_material`. */
  readonly column?: C;
  /** Half width of "equal", as a share of the reference; default 0.15 (no source: a choice). */
  readonly margin?: number;
  /** Of every interval and test, two-sided; default 0.95. */
  readonly confidence?: number;
}

/** The columns that hold one of a few words. */
export const CATEGORY_COLUMNS = [
  "bar_material",
  "bar_class",
  "bar_surface",
  "installation",
  "setup",
  "cracked",
  "provenance",
] as const satisfies readonly CategoryColumn[];

/**
 * The options with their defaults.
 * @throws RangeError for a margin or a confidence that is not between 0 and 1
 */
export function versusSettings({
  margin = 0.15,
  confidence = 0.95,
}: Pick<VersusOptions, "margin" | "confidence">): {
  readonly margin: number;
  readonly confidence: number;
} {
  for (const [name, value] of Object.entries({ margin, confidence }))
    if (!(value > 0 && value < 1))
      throw new RangeError(`The ${name} is ${value}; expected a fraction between 0 and 1.`);
  return { margin, confidence };
}

/** The words of the derived columns; those of the contract's stand in the schema. */
const DERIVED_WORDS: Readonly<Record<string, readonly string[]>> = {
  bar_class: ["steel", "frp"],
  provenance: PROVENANCES,
};

/**
 * Whether the reference is among the values of its column. A word that the column could hold and no
 * test has is no error: the comparison is empty and says so.
 * @throws UnknownNameError for a word that the column never holds
 */
export function hasReference(
  column: string,
  reference: string,
  values: readonly (string | null)[],
): boolean {
  const held = values.filter((value) => value !== null);
  const possible = DERIVED_WORDS[column] ?? testColumn(column)?.categories ?? [];
  knownName(column.replaceAll("_", " "), reference, [...new Set([...held, ...possible])]);
  return held.includes(reference);
}

/** Why nothing is compared. */
export function nothingWords(rows: number, tested: boolean, reference: string): string {
  if (rows === 0) return "no rows";
  return tested ? `only ${reference} was tested` : `no test of ${reference}`;
}

/** Columns as short names of files have them: "bar_size" gives "size". */
export function shortNames(columns: readonly string[]): readonly string[] {
  return columns.map((column) => column.replace(/^bar_/, ""));
}
