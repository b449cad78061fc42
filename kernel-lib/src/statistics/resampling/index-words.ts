import type { Random } from "../random";

/** How many independent indices below n one random word holds: its digits to the base n. */
export interface IndexWord {
  readonly digits: number;
  /** n^digits: words are drawn below this, so that no index is favoured. */
  readonly top: number;
}

/** The largest power of n that a 32-bit word can hold. */
export function indexWord(n: number): IndexWord {
  let digits = 1;
  let top = n;
  while (n > 1 && top * n <= 4294967296) {
    top *= n;
    digits += 1;
  }
  return { digits, top };
}

/** Fills `buffer` from `from` with `count` independent indices. */
export type Filler = (buffer: Int32Array, from: number, count: number) => void;

/** Draws independent indices below n, as many from each random word as it holds, which spares most calls of the generator. */
export function createFiller(random: Random, n: number): Filler {
  const { digits, top } = indexWord(n);
  return (buffer, from, count) => {
    const end = from + count;
    for (let at = from; at < end;) {
      let word = random.integer(top);
      for (let k = 0; k < digits && at < end; k += 1) {
        const rest = Math.trunc(word / n);
        buffer[at++] = word - rest * n;
        word = rest;
      }
    }
  };
}

/** Sum and sum of squares of one resample of values, written to the two places of `out`. */
export type SumsDrawer = (out: Float64Array) => void;

/** Largest n for which sums of pairs are tabled: 128² numbers stay in a processor's nearest memory. */
const LARGEST_TABLE = 128;

/**
 * Draws the sums of resamples of `values`, the same resamples as `createFiller` gives, without writing them down:
 * two digits of a word at a time are one place in a table of the n² sums of two values.
 */
export function createSumsDrawer(random: Random, values: Float64Array): SumsDrawer {
  const n = values.length;
  if (n > LARGEST_TABLE) return sumsOfIndices(random, values);
  const { digits, top } = indexWord(n);
  const square = n * n;
  const sums = Float64Array.from({ length: square }, (_, pair) => values[pair % n]! + values[Math.floor(pair / n)]!);
  const squares = Float64Array.from({ length: square }, (_, pair) => values[pair % n]! ** 2 + values[Math.floor(pair / n)]! ** 2);
  return (out) => {
    let sum = 0;
    let sumOfSquares = 0;
    for (let left = n; left > 0;) {
      let word = random.integer(top);
      let held = digits < left ? digits : left;
      left -= held;
      for (; held > 1; held -= 2) {
        const rest = Math.trunc(word / square);
        const pair = (word - rest * square) | 0;
        sum += sums[pair]!;
        sumOfSquares += squares[pair]!;
        word = rest;
      }
      if (held === 1) {
        const value = values[word % n]!;
        sum += value;
        sumOfSquares += value * value;
      }
    }
    out[0] = sum;
    out[1] = sumOfSquares;
  };
}

function sumsOfIndices(random: Random, values: Float64Array): SumsDrawer {
  const buffer = new Int32Array(values.length);
  const fill = createFiller(random, values.length);
  return (out) => {
    fill(buffer, 0, buffer.length);
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < buffer.length; i += 1) {
      const value = values[buffer[i]!]!;
      sum += value;
      squares += value * value;
    }
    out[0] = sum;
    out[1] = squares;
  };
}
