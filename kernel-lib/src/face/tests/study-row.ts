import type { LayoutWord } from "../../comparison";
import type { ExtraValue, Provenance, TestRow as StatedRow } from "../../dataset";

/**
 * One test: the columns of the data contract, what is derived from them, and columns of your own as
 * `extra.name`.
 */
export interface TestRow extends Omit<StatedRow, "extra"> {
  /** From studies.csv; "own" where it has no line for the study. */
  readonly provenance: Provenance;
  readonly bar_class: "steel" | "frp";
  /** Embedment over bar diameter. */
  readonly embedment_to_diameter: number;
  /**
   * MPa: peak load over the bonded surface of one bar, P / (pi d l n) for n bars; blank for shear
   * and what-if rows.
   */
  readonly bond_stress_MPa: number | null;
  readonly layout: LayoutWord;
  readonly [own: `extra.${string}`]: ExtraValue;
}

/** A column of the tests. */
export type Column = keyof TestRow;

/** A column that holds numbers. */
export type NumberColumn<R = TestRow> =
  | `extra.${string}`
  | { [K in keyof R]: [Exclude<R[K], null>] extends [number] ? K : never }[keyof R];

/** A column that holds one of a few words. */
export type CategoryColumn =
  | "bar_material"
  | "bar_class"
  | "bar_surface"
  | "installation"
  | "setup"
  | "cracked"
  | "provenance";

/**
 * The values of a column: numbers as a Float64Array with NaN for a blank, words as they are with
 * null for a blank.
 */
export type Values<T> = [Exclude<T, null>] extends [number] ? Float64Array : readonly T[];
