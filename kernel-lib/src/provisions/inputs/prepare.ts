import type { Level } from "../model/levels";
import { fromCodes, fromWords, soleWord } from "./column-values";
import { INPUTS, type InputDefinition, type InputName } from "./catalogue";
import { CYLINDER_FACTOR } from "./concrete-strength";
import {
  columnOfWords,
  derived,
  filled,
  mayMiss,
  statedColumn,
  valueAt,
  type InputColumn,
} from "./derived-column";

/**
 * What of a table of tests the predictions read: numbers with NaN for missing, texts with null for
 * missing.
 */
export interface TestColumns {
  readonly length: number;
  has(column: string): boolean;
  numbers(column: string): Float64Array;
  texts(column: string): ReadonlyArray<string | null>;
  /**
   * A column of categories as its different words, each of which some row has, and a code for each
   * row; null where it is not kept so.
   */
  words?(
    column: string,
  ): { readonly words: ReadonlyArray<string | null>; readonly codes: ArrayLike<number> } | null;
}

/** Readings of the data on which opinions differ; each has a default that guesses nothing. */
export interface Readings {
  /** A strength of unknown basis: leave the row unpredicted, or take it for a cylinder strength. */
  readonly unknownStrengthBasis?: "not_predicted" | "as_cylinder";
  /**
   * A blank bond stress for uncracked concrete of a bar in cracked concrete: no capacity where it
   * is read, or the row's cracked one.
   */
  readonly blankUncrackedBond?: "not_predicted" | "as_cracked";
}

const TEXT_FLAGS: Readonly<Partial<Record<InputName, readonly string[]>>> = {
  top_cast: ["top"],
  lightweight: ["lightweight"],
  post_installed: ["post_installed"],
  steel: ["steel"],
  gfrp: ["gfrp"],
  bfrp: ["bfrp"],
  cfrp: ["cfrp"],
  afrp: ["afrp"],
  frp: ["gfrp", "bfrp", "cfrp", "afrp"],
  ribbed: ["ribbed"],
  sand_coated: ["sand_coated"],
  helically_wrapped: ["helically_wrapped"],
  sand_coated_helical: ["sand_coated_helical"],
  indented: ["indented"],
  plain: ["plain"],
  threaded: ["threaded"],
  surface_unknown: ["unknown", ""],
};

/**
 * The inputs of formulas for every row of a table, in N, mm, MPa. Columns are looked at when first
 * asked for and kept, so a code that never reads the edges never touches them.
 */
export class Specimens {
  readonly length: number;
  readonly #made = new Map<InputName, InputColumn>();
  readonly #stated = new Map<string, InputColumn>();
  readonly #soleWords = new Map<string, string | null | undefined>();

  constructor(
    readonly tests: TestColumns,
    readonly level: Level,
    readonly readings: Readings = {},
  ) {
    this.length = tests.length;
  }

  /**
   * One input for all rows: a plain number when every row has the same value, else a formula over
   * columns of the table.
   */
  column(name: InputName): InputColumn {
    const made = this.#made.get(name) ?? this.#make(name);
    this.#made.set(name, made);
    return made;
  }

  /**
   * The numbers of a column that formulas of inputs read, by the name that they give it. @throws
   * Error for one that none of them reads
   */
  tableColumn(name: string): Float64Array {
    for (const column of this.#made.values()) {
      const found = typeof column === "number" ? undefined : column.columns.get(name);
      if (found) return found;
    }
    throw new Error(`No input reads a column "${name}".`);
  }

  /** One input of one row; NaN when missing. */
  value(name: InputName, i: number): number {
    return valueAt(this.column(name), i);
  }

  /**
   * The word that every row has in a column; null also for a column that is not there, undefined
   * where rows differ.
   */
  soleWord(column: string): string | null | undefined {
    if (!this.#soleWords.has(column))
      this.#soleWords.set(column, this.tests.has(column) ? this.#findSoleWord(column) : null);
    return this.#soleWords.get(column);
  }

  #findSoleWord(column: string): string | null | undefined {
    const coded = this.tests.words?.(column);
    return coded
      ? coded.words.length > 1
        ? undefined
        : (coded.words[0] ?? null)
      : soleWord(this.tests.texts(column));
  }

  #make(name: InputName): InputColumn {
    const flags = TEXT_FLAGS[name];
    const definition: InputDefinition = INPUTS[name];
    const column = definition.column ?? "";
    // Whether the concrete was cracked moves a capacity by 40 %: a blank is missing, not "no".
    if (name === "cracked")
      return this.#words(name, column, (word) => (word === null ? NaN : word === "yes" ? 1 : 0));
    if (flags) return this.#words(name, column, (word) => (flags.includes(word ?? "") ? 1 : 0));
    const numbers = this.#numbers(column);
    switch (name) {
      case "f_c": {
        const assumed = this.readings.unknownStrengthBasis === "as_cylinder" ? 1 : NaN;
        const factor = this.#words(
          "cylinder_factor",
          "concrete_strength_basis",
          (basis) => CYLINDER_FACTOR[basis ?? "unknown"]?.factor ?? assumed,
        );
        return factor === 1
          ? numbers
          : derived("strength * factor", { strength: numbers, factor }, true);
      }
      case "f_u":
        return this.#byLevel(numbers, this.#numbers("bar_strength_specified_MPa"));
      case "f_v":
        return this.#byLevel(numbers, this.#numbers("bar_shear_strength_specified_MPa"));
      case "f_u_cap":
        return filled(this.column("f_u"), INPUTS.f_u_cap.blank);
      case "tau_uncr":
        return filled(numbers, this.#ownStateBond());
      case "tau_uncr_stated":
        return filled(this.column("tau_uncr"), INPUTS.tau_uncr_stated.blank);
      case "A_b":
        return filled(
          numbers,
          derived("pi / 4 * d * d", { d: this.#numbers("bar_diameter_mm") }, true),
        );
      case "E_b":
        return derived("modulus * 1000", { modulus: numbers }, true);
      case "lambda":
        // Only lightweight concrete needs its factor stated.
        return filled(
          numbers,
          this.#words("lightweight_without_factor", "concrete_type", (type) =>
            type === "lightweight" ? NaN : 1,
          ),
        );
      case "s_x":
      case "s_y":
        return derived(
          "if(n > 1, spacing, 0)",
          { n: this.#numbers(name === "s_x" ? "group_nx" : "group_ny"), spacing: numbers },
          mayMiss(numbers),
        );
      default:
        return definition.blank === undefined ? numbers : filled(numbers, definition.blank);
    }
  }

  /**
   * The row's own bond stress where that is the uncracked one; in cracked concrete only when the
   * reader asks for it.
   */
  #ownStateBond(): InputColumn {
    const own = this.#numbers("bond_strength_char_MPa");
    if (this.readings.blankUncrackedBond === "as_cracked") return own;
    return derived(
      "if(cracked == 0, own, blank)",
      { cracked: this.column("cracked"), own, blank: NaN },
      true,
    );
  }

  /**
   * The measured strength at the expected level, the specified one at the others; where that is
   * blank, the other of the two.
   */
  #byLevel(measured: InputColumn, specified: InputColumn): InputColumn {
    return this.level === "expected" ? filled(measured, specified) : filled(specified, measured);
  }

  #numbers(column: string): InputColumn {
    const stated =
      this.#stated.get(column) ??
      (this.tests.has(column) ? statedColumn(column, this.tests.numbers(column)) : NaN);
    this.#stated.set(column, stated);
    return stated;
  }

  /** @param name what the words are read as */
  #words(name: string, column: string, valueOf: (word: string | null) => number): InputColumn {
    const sole = this.soleWord(column);
    if (sole !== undefined) return valueOf(sole);
    const coded = this.tests.words?.(column);
    return columnOfWords(
      `${column} as ${name}`,
      coded
        ? fromCodes(coded.codes, coded.words.map(valueOf), this.length)
        : fromWords(this.tests.texts(column), this.length, valueOf),
    );
  }
}
