import type { InputColumn } from "../model/compile";
import type { Level } from "../model/definition";
import { INPUTS, type InputDefinition, type InputName } from "./catalogue";
import { CYLINDER_FACTOR } from "./concrete-strength";

/** What of a table of tests the predictions read: numbers with NaN for missing, texts with null for missing. */
export interface TestColumns {
  readonly length: number;
  has(column: string): boolean;
  numbers(column: string): Float64Array;
  texts(column: string): ReadonlyArray<string | null>;
}

/** Readings of the data on which opinions differ; each has a default that guesses nothing. */
export interface Readings {
  /** A strength of unknown basis: leave the row unpredicted, or take it for a cylinder strength. */
  readonly unknownStrengthBasis?: "not_predicted" | "as_cylinder";
}

const TEXT_FLAGS: Readonly<Partial<Record<InputName, readonly string[]>>> = {
  top_cast: ["top"], cracked: ["yes"], lightweight: ["lightweight"], post_installed: ["post_installed"],
  steel: ["steel"], gfrp: ["gfrp"], bfrp: ["bfrp"], cfrp: ["cfrp"], afrp: ["afrp"], frp: ["gfrp", "bfrp", "cfrp", "afrp"],
  ribbed: ["ribbed"], sand_coated: ["sand_coated"], helically_wrapped: ["helically_wrapped"], sand_coated_helical: ["sand_coated_helical"],
  indented: ["indented"], plain: ["plain"], threaded: ["threaded"], surface_unknown: ["unknown"],
};

/**
 * The inputs of formulas for every row of a table, in N, mm, MPa. Columns are made when first asked for and kept, so
 * a code that never reads the edges never touches them.
 */
export class Specimens {
  readonly length: number;
  readonly #made = new Map<InputName, InputColumn>();

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
    const column = compact(this.#make(name));
    this.#made.set(name, column);
    return column;
  }

  /** One input of one row; NaN when missing. */
  value(name: InputName, i: number): number {
    const { values } = this.column(name);
    return typeof values === "number" ? values : (values[i] ?? NaN);
  }

  #make(name: InputName): Float64Array | number {
    const flags = TEXT_FLAGS[name];
    const definition: InputDefinition = INPUTS[name];
    const column = definition.column ?? "";
    if (flags) return this.#flag(column, flags);
    switch (name) {
      case "f_c":
        return this.#concreteStrength();
      case "f_u":
        return this.level === "expected" ? this.#first("bar_strength_MPa", "bar_strength_specified_MPa") : this.#first("bar_strength_specified_MPa", "bar_strength_MPa");
      case "tau_uncr":
        return this.#first("bond_strength_uncracked_char_MPa", "bond_strength_char_MPa");
      case "A_b":
        return this.#area();
      case "E_b":
        return mapped(this.#numbers(column), (modulus) => modulus * 1000);
      case "lambda":
        return this.#combined("lightweight_factor", "concrete_type", (factor, type) => (Number.isNaN(factor) && type !== "lightweight" ? 1 : factor));
      case "s_x":
        return this.#spacing(column, "group_nx");
      case "s_y":
        return this.#spacing(column, "group_ny");
      default: {
        const { blank } = definition;
        const numbers = this.#numbers(column);
        return blank === undefined ? numbers : mapped(numbers, (value) => (Number.isNaN(value) ? blank : value));
      }
    }
  }

  #numbers(column: string): Float64Array | number {
    return this.tests.has(column) ? this.tests.numbers(column) : NaN;
  }

  #flag(column: string, accepted: readonly string[]): Float64Array | number {
    if (!this.tests.has(column)) return 0;
    const texts = this.tests.texts(column);
    const values = new Float64Array(this.length);
    for (let i = 0; i < values.length; i++) values[i] = accepted.includes(texts[i] ?? "") ? 1 : 0;
    return values;
  }

  #first(preferred: string, otherwise: string): Float64Array | number {
    const [a, b] = [this.#numbers(preferred), this.#numbers(otherwise)];
    if (typeof a === "number") return b;
    if (typeof b === "number") return a;
    return a.map((value, i) => (Number.isNaN(value) ? (b[i] ?? NaN) : value));
  }

  #combined(numbers: string, texts: string, combine: (value: number, text: string | null) => number): Float64Array | number {
    const values = this.#numbers(numbers);
    const words = this.tests.has(texts) ? this.tests.texts(texts) : [];
    const out = new Float64Array(this.length);
    for (let i = 0; i < out.length; i++) out[i] = combine(typeof values === "number" ? values : (values[i] ?? NaN), words[i] ?? null);
    return out;
  }

  #concreteStrength(): Float64Array | number {
    const assumed = this.readings.unknownStrengthBasis === "as_cylinder" ? 1 : NaN;
    return this.#combined("concrete_strength_MPa", "concrete_strength_basis", (strength, basis) => strength * (CYLINDER_FACTOR[basis ?? "unknown"]?.factor ?? assumed));
  }

  #area(): Float64Array | number {
    const diameters = this.#numbers("bar_diameter_mm");
    const areas = this.#numbers("bar_area_mm2");
    const circle = mapped(diameters, (d) => (Math.PI / 4) * d * d);
    if (typeof areas === "number" || typeof circle === "number") return typeof areas === "number" ? circle : areas;
    return areas.map((area, i) => (Number.isNaN(area) ? (circle[i] ?? NaN) : area));
  }

  #spacing(column: string, count: string): Float64Array | number {
    const counts = this.#numbers(count);
    const spacings = this.#numbers(column);
    if (typeof counts === "number") return 0;
    return counts.map((n, i) => (n > 1 ? (typeof spacings === "number" ? spacings : (spacings[i] ?? NaN)) : 0));
  }
}

function mapped(values: Float64Array | number, change: (value: number) => number): Float64Array | number {
  return typeof values === "number" ? change(values) : values.map(change);
}

/** A column that holds one value throughout is kept as that value, which lets the formulas be simplified. */
function compact(values: Float64Array | number): InputColumn {
  if (typeof values === "number") return { values, hasMissing: Number.isNaN(values) };
  const first = values[0] ?? NaN;
  let same = true;
  let hasMissing = false;
  for (let i = 0; i < values.length; i++) {
    const value = values[i];
    if (value !== value) hasMissing = true;
    if (!Object.is(value, first)) same = false;
  }
  return { values: same && values.length > 0 ? first : values, hasMissing };
}
