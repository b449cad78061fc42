/**
 * A stretch of running text: `symbol` is a letter set slanted, and its `sub` stands below the line.
 */
export interface TextRun {
  readonly text: string;
  readonly script: "line" | "symbol" | "sub";
}

/**
 * One letter, a prime where it has one, and what follows its underscore: `N_ag`, `ψ_FRP,Na`,
 * `f'_c`. Names of columns and options (`test_id`, `bar_strength_MPa`) begin with a longer word and
 * stay as they are; so does a comma that ends a clause of the sentence.
 */
const SYMBOL = /(?<![\p{L}\p{N}_])(\p{L}'?)_([\p{L}\p{N}]+(?:,[\p{L}\p{N}]+)*)(?![\p{L}\p{N}_])/gu;

/**
 * Splits running text where symbols have subscripts, so that each format can set them as the trade
 * does. The runs put together give the text without the underscores of its symbols.
 * @example
 * symbolRuns("N_ag is least") // [{ text: "N", script: "symbol" }, { text: "ag", script: "sub" }, { text: " is least", script: "line" }]
 */
export function symbolRuns(text: string): TextRun[] {
  const runs: TextRun[] = [];
  const add = (piece: string, script: TextRun["script"]): void =>
    void (piece !== "" && runs.push({ text: piece, script }));
  let from = 0;
  for (const { 0: all, 1: letter = "", 2: below = "", index } of text.matchAll(SYMBOL)) {
    add(text.slice(from, index), "line");
    add(letter, "symbol");
    add(below, "sub");
    from = index + all.length;
  }
  add(text.slice(from), "line");
  return runs;
}
