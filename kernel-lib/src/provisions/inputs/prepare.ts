import type { InputColumn } from "../model/provision-symbols";
import type { Level } from "../model/definition";
import { circleArea, combined, compact, filled, fromCodes, fromWords, soleWord, times, type Values } from "./column-values";
import { INPUTS, type InputDefinition, type InputName } from "./catalogue";
import { CYLINDER_FACTOR } from "./concrete-strength";

/** What of a table of tests the predictions read: numbers with NaN for missing, texts with null for missing. */
export interface TestColumns {
  readonly length: number;
  has(column: string): boolean;
  numbers(column: string): Float64Array;
  texts(column: string): ReadonlyArray<string | null>;
  /** A column of categories as its different words, each of which some row has, and a code for each row; null where it is not kept so. */
  words?(column: string): { readonly words: ReadonlyArray<string | null>; readonly codes: ArrayLike<number> } | null;
}

/** Readings of the data on which opinions differ; each has a default that guesses nothing. */
export interface Readings {
  /** A strength of unknown basis: leave the row unpredicted, or take it for a cylinder strength. */
  readonly unknownStrengthBasis?: "not_predicted" | "as_cylinder";
}

const TEXT_FLAGS: Readonly<Partial<Record<InputName, readonly string[]>>> = {
  top_cast: ["top"], lightweight: ["lightweight"], post_installed: ["post_installed"],
  steel: ["steel"], gfrp: ["gfrp"], bfrp: ["bfrp"], cfrp: ["cfrp"], afrp: ["afrp"], frp: ["gfrp", "bfrp", "cfrp", "afrp"],
  ribbed: ["ribbed"], sand_coated: ["sand_coated"], helically_wrapped: ["helically_wrapped"], sand_coated_helical: ["sand_coated_helical"],
  indented: ["indented"], plain: ["plain"], threaded: ["threaded"], surface_unknown: ["unknown", ""],
};

/**
 * The inputs of formulas for every row of a table, in N, mm, MPa. Columns are made when first asked for and kept, so
 * a code that never reads the edges never touches them.
 */
export class Specimens {
  readonly length: number;
  readonly #made = new Map<InputName, InputColumn>();
  readonly #soleWords = new Map<string, string | null | undefined>();

  constructor(
    readonly tests: TestColumns,
    readonly level: Level,
    readonly readings: Readings = {},
  ) {
    this.length = tests.length;
  }

  /** One input for all rows; a plain number when every row has the same value. */
  column(name: InputName): InputColumn {
    const made = this.#made.get(name);
    if (made) return made;
    const blank = (INPUTS[name] as InputDefinition).blank;
    const column = compact(this.#make(name), blank !== undefined && !Number.isNaN(blank));
    this.#made.set(name, column);
    return column;
  }

  /** One input of one row; NaN when missing. */
  value(name: InputName, i: number): number {
    const { values } = this.column(name);
    return typeof values === "number" ? values : (values[i] ?? NaN);
  }

  /** The word that every row has in a column; null also for a column that is not there, undefined where rows differ. */
  soleWord(column: string): string | null | undefined {
    if (!this.#soleWords.has(column)) this.#soleWords.set(column, this.tests.has(column) ? this.#findSoleWord(column) : null);
    return this.#soleWords.get(column);
  }

  #findSoleWord(column: string): string | null | undefined {
    const coded = this.tests.words?.(column);
    return coded ? (coded.words.length > 1 ? undefined : (coded.words[0] ?? null)) : soleWord(this.tests.texts(column));
  }

  #make(name: InputName): Values {
    const flags = TEXT_FLAGS[name];
    const definition: InputDefinition = INPUTS[name];
    const column = definition.column ?? "";
    // Whether the concrete was cracked moves a capacity by 40 %: a blank is missing, not "no".
    if (name === "cracked") return this.#words(column, (word) => (word === null ? NaN : word === "yes" ? 1 : 0));
    if (flags) return this.#words(column, (word) => (flags.includes(word ?? "") ? 1 : 0));
    const numbers = this.#numbers(column);
    switch (name) {
      case "f_c":
        return this.#concreteStrength(numbers);
      case "f_u":
        return this.level === "expected" ? filled(numbers, this.#numbers("bar_strength_specified_MPa")) : filled(this.#numbers("bar_strength_specified_MPa"), numbers);
      case "tau_uncr":
        return filled(numbers, this.#numbers("bond_strength_char_MPa"));
      case "A_b":
        return filled(numbers, circleArea(this.#numbers("bar_diameter_mm")));
      case "E_b":
        return times(numbers, 1000);
      case "lambda":
        // Only lightweight concrete needs its factor stated.
        return filled(numbers, this.#words("concrete_type", (type) => (type === "lightweight" ? NaN : 1)));
      case "s_x":
      case "s_y": {
        const counts = this.#numbers(name === "s_x" ? "group_nx" : "group_ny");
        return typeof counts === "number" && Number.isNaN(counts) ? 0 : combined(counts, numbers, this.length, (n, spacing) => (n > 1 ? spacing : 0));
      }
      default:
        return definition.blank === undefined ? numbers : filled(numbers, definition.blank);
    }
  }

  #numbers(column: string): Values {
    return this.tests.has(column) ? this.tests.numbers(column) : NaN;
  }

  #words(column: string, valueOf: (word: string | null) => number): Values {
    const sole = this.soleWord(column);
    if (sole !== undefined) return valueOf(sole);
    const coded = this.tests.words?.(column);
    return coded ? fromCodes(coded.codes, coded.words.map(valueOf), this.length) : fromWords(this.tests.texts(column), this.length, valueOf);
  }

  #concreteStrength(strengths: Values): Values {
    const assumed = this.readings.unknownStrengthBasis === "as_cylinder" ? 1 : NaN;
    const factors = this.#words("concrete_strength_basis", (basis) => CYLINDER_FACTOR[basis ?? "unknown"]?.factor ?? assumed);
    return typeof factors === "number" ? times(strengths, factors) : combined(strengths, factors, this.length, (strength, factor) => strength * factor);
  }
}
