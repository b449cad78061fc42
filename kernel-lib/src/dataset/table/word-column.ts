/**
 * A column of words that repeat: each different word once, and for each row which of them it has.
 */
export interface WordColumn {
  /** The different words of the column, null among them when a row has none. */
  readonly words: ReadonlyArray<string | null>;
  /** Place of each row's word in `words`. */
  readonly codes: Uint8Array | Uint16Array;
}

const MOST_WORDS = 65_536;

/**
 * Words as codes: a million words take one megabyte, and the collector of garbage need not look at
 * them. Null for a column of more than 65,536 different words, which is not one of words that
 * repeat.
 * @example wordColumn(["gfrp", "steel", "gfrp"]) // { words: ["gfrp", "steel"], codes: [0, 1, 0] }
 */
export function wordColumn(texts: ReadonlyArray<string | null>): WordColumn | null {
  const places = new Map<string | null, number>();
  const codes = new Uint16Array(texts.length);
  let [word, code]: [string | null | undefined, number] = [undefined, 0];
  for (let i = 0; i < codes.length; i += 1) {
    const next = texts[i] ?? null;
    if (next !== word) {
      word = next;
      code = places.get(word) ?? places.size;
      if (code === MOST_WORDS) return null;
      places.set(word, code);
    }
    codes[i] = code;
  }
  return { words: [...places.keys()], codes: places.size <= 256 ? Uint8Array.from(codes) : codes };
}

/**
 * Collects a column of at most `mostRows` known words (at most 254 of them differ) and blanks, word
 * by word.
 */
export function wordWriter(
  known: ReadonlyArray<string>,
  mostRows: number,
): { push(word: string | null): void; column(): WordColumn } {
  const places = new Map<string | null, number>([
    [null, 0],
    ...known.map((word, k): [string, number] => [word, k + 1]),
  ]);
  const codes = new Uint8Array(mostRows);
  let length = 0;
  return {
    push(word): void {
      codes[length] = places.get(word) ?? 0;
      length += 1;
    },
    column(): WordColumn {
      // As everywhere, only words that some row has, in order of first appearance.
      const names = [...places.keys()];
      const order = new Int16Array(names.length).fill(-1);
      const words: Array<string | null> = [];
      const used = new Uint8Array(length);
      for (let i = 0; i < length; i += 1) {
        const code = codes[i] ?? 0;
        let place = order[code] ?? -1;
        if (place === -1) {
          place = words.length;
          order[code] = place;
          words.push(names[code] ?? null);
        }
        used[i] = place;
      }
      return { words, codes: used };
    },
  };
}

/** The words row by row. */
export function textsOf({ words, codes }: WordColumn): Array<string | null> {
  const texts = new Array<string | null>(codes.length);
  for (let i = 0; i < texts.length; i += 1) texts[i] = words[codes[i] ?? 0] ?? null;
  return texts;
}
