import type { Random } from "../random";

/** How many independent indices below n one random word holds: its digits to the base n. */
interface IndexWord {
  readonly digits: number;
  /** n^digits: words are drawn below this, so that no index is favoured. */
  readonly top: number;
}

/** The largest power of n that a 32-bit word can hold. */
function indexWord(n: number): IndexWord {
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

/**
 * Draws independent indices below n, as many from each random word as it holds, which spares most
 * calls of the generator.
 */
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
