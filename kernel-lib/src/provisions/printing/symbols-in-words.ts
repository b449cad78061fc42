import { symbolText } from "../../formula";

/**
 * A symbol in a sentence: a letter, or a Greek letter by its name, with its subscript: h_ef,
 * psi_c,N; no name of several words.
 */
const SYMBOL =
  /\b(?:[A-Za-z]|alpha|beta|gamma|eta|lambda|phi|psi|sigma|tau)_[A-Za-z0-9]+(?:,[A-Za-z0-9]+)*(?![A-Za-z0-9_])/g;

/**
 * Symbols in a sentence written as in the formulas beside it.
 * @example
 * symbolsInWords("number of edges closer than 1.5 h_ef; psi_c,N is 1") // "number of edges closer than 1.5 h_ef; ψ_c,N is 1"
 */
export function symbolsInWords(sentence: string): string {
  return sentence.replace(SYMBOL, (symbol) => symbolText(symbol.replaceAll(",", "_")));
}
