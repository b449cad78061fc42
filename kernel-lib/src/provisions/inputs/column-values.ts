/** One value for every row, or the same for all. */
export type Values = Float64Array | number;

/** A value by word, found anew only where the word changes; columns of words mostly repeat. */
export function fromWords(
  words: ReadonlyArray<string | null>,
  n: number,
  valueOf: (word: string | null) => number,
): Values {
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

/**
 * A column that holds one value throughout is kept as that value, which lets the formulas be
 * simplified.
 */
export function compact(values: Values): Values {
  if (typeof values === "number") return values;
  const first = values[0] ?? NaN;
  let i = 1;
  while (i < values.length && Object.is(values[i], first)) i += 1;
  return i >= values.length && values.length > 0 ? first : values;
}

/** Whether any value is missing. */
export function hasMissing(values: Values): boolean {
  if (typeof values === "number") return Number.isNaN(values);
  let i = 0;
  while (i < values.length && values[i] === values[i]) i += 1;
  return i < values.length;
}
