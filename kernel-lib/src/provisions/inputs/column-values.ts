import type { InputColumn } from "../model/compile";

/** One value for every row, or the same for all. */
export type Values = Float64Array | number;

/** A value by word, looked up anew only where the word changes; columns of words mostly repeat. */
export function fromWords(words: ReadonlyArray<string | null>, n: number, valueOf: (word: string | null) => number): Values {
  let word = words[0] ?? null;
  let value = valueOf(word);
  const first = value;
  let out: Float64Array | null = null;
  for (let i = 1; i < n; i++) {
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

/** Every value divided. */
export function dividedBy(values: Values, size: number): Values {
  if (typeof values === "number") return values / size;
  const out = new Float64Array(values.length);
  for (let i = 0; i < out.length; i++) out[i] = (values[i] ?? NaN) / size;
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

/** A column that holds one value throughout is kept as that value, which lets the formulas be simplified. */
export function compact(values: Values): InputColumn {
  if (typeof values === "number") return { values, hasMissing: Number.isNaN(values) };
  const n = values.length;
  const first = values[0] ?? NaN;
  let i = 1;
  while (i < n && Object.is(values[i], first)) i += 1;
  if (i >= n && n > 0) return { values: first, hasMissing: Number.isNaN(first) };
  let hasMissing = first !== first;
  for (; i < n && !hasMissing; i++) {
    const value = values[i];
    hasMissing = value !== value;
  }
  return { values, hasMissing };
}
