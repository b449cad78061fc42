import type { InputColumn } from "../model/provision-symbols";

/** One value for every row, or the same for all. */
export type Values = Float64Array | number;

/** A value by word, looked up anew only where the word changes; columns of words mostly repeat. */
export function fromWords(words: ReadonlyArray<string | null>, n: number, valueOf: (word: string | null) => number): Values {
  const start = words[0] ?? null;
  const first = valueOf(start);
  let i = 1;
  while (i < n && words[i] === start) i += 1;
  let [word, value]: [string | null, number] = [start, first];
  let out: Float64Array | null = null;
  for (; i < n; i++) {
    const next = words[i] ?? null;
    if (next !== word) {
      word = next;
      value = valueOf(word);
      if (out === null && !Object.is(value, first)) out = new Float64Array(n).fill(first, 0, i);
    }
    if (out !== null) out[i] = value;
  }
  return out ?? first;
}

/** The value of each row's word, from the values of the different words. */
export function fromCodes(codes: ArrayLike<number>, values: readonly number[], n: number): Values {
  const first = values[0] ?? NaN;
  if (values.every((value) => Object.is(value, first))) return first;
  const byCode = Float64Array.from(values);
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) out[i] = byCode[codes[i]!]!;
  return out;
}

/** The word that every row has; undefined where they differ. */
export function soleWord(words: ReadonlyArray<string | null>): string | null | undefined {
  const first = words[0] ?? null;
  for (let i = 1; i < words.length; i++) if (words[i] !== first) return undefined;
  return first;
}

/** Two columns taken together row by row; a plain number stays one. */
export function combined(a: Values, b: Values, n: number, combine: (a: number, b: number) => number): Values {
  if (typeof a === "number" && typeof b === "number") return combine(a, b);
  const out = new Float64Array(n);
  for (let i = 0; i < n; i++) out[i] = combine(typeof a === "number" ? a : (a[i] ?? NaN), typeof b === "number" ? b : (b[i] ?? NaN));
  return out;
}

/** Every value multiplied; by one, the column itself. */
export function times(values: Values, factor: number): Values {
  if (typeof values === "number") return values * factor;
  if (factor === 1) return values;
  const out = new Float64Array(values.length);
  for (let i = 0; i < out.length; i++) out[i] = (values[i] ?? NaN) * factor;
  return out;
}

/** Area of a circle, for each diameter. */
export function circleArea(diameters: Values): Values {
  if (typeof diameters === "number") return (Math.PI / 4) * diameters * diameters;
  const out = new Float64Array(diameters.length);
  // Written out: a loop that calls a function handed in costs four times as much.
  for (let i = 0; i < out.length; i++) out[i] = (Math.PI / 4) * diameters[i]! * diameters[i]!;
  return out;
}

/** Missing values replaced by another column's; the column itself when none is missing. */
export function filled(values: Values, otherwise: Values): Values {
  if (typeof values === "number") return Number.isNaN(values) ? otherwise : values;
  let out: Float64Array | null = null;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? NaN;
    if (value === value) continue;
    out ??= values.slice();
    out[i] = typeof otherwise === "number" ? otherwise : (otherwise[i] ?? NaN);
  }
  return out ?? values;
}

/**
 * A column that holds one value throughout is kept as that value, which lets the formulas be simplified.
 * @param complete whether it is known that no value is missing
 */
export function compact(values: Values, complete = false): InputColumn {
  if (typeof values === "number") return { values, hasMissing: Number.isNaN(values) };
  const n = values.length;
  const first = values[0] ?? NaN;
  let i = 1;
  while (i < n && Object.is(values[i], first)) i += 1;
  if (i >= n && n > 0) return { values: first, hasMissing: Number.isNaN(first) };
  let hasMissing = first !== first;
  if (complete) return { values, hasMissing: false };
  for (; i < n && !hasMissing; i++) {
    const value = values[i];
    hasMissing = value !== value;
  }
  return { values, hasMissing };
}
