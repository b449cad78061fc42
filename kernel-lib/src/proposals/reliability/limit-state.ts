import { compile, parseFormula, symbolsOf, toJavaScript } from "../../formula";
import type { Distribution } from "../../statistics";

/** A limit state with independent basic variables: g(x) < 0 is failure. */
export interface LimitState {
  readonly names: readonly string[];
  readonly marginals: readonly Distribution[];
  readonly g: (x: readonly number[]) => number;
  /** ∂g/∂x; by central differences when absent. */
  readonly gradient?: (x: readonly number[]) => readonly number[];
  /**
   * g as a formula of one symbol for each variable, in their order. A simulation then runs over
   * whole columns instead of calling a function for each sample. It must say the same as `g`:
   * `limitStateOf` writes both from one text.
   */
  readonly formula?: LimitStateFormula;
}

/** A limit state as text. */
export interface LimitStateFormula {
  readonly text: string;
  readonly symbols: readonly string[];
}

/** g of whole columns, one value a row into `out`. */
export type LimitStateColumns = (
  n: number,
  columns: readonly Float64Array[],
  out: Float64Array,
) => void;

/**
 * A limit state written as a formula of its variables, in the language of the provisions.
 * @throws Error for a symbol that is no variable, or a variable that the formula does not read
 * @example
 * limitStateOf("M * P - D - L", { M: lognormal(0.1, 0.12), P: lognormal(0, 0.15), D: normal(0.5, 0.05), L: gumbel(0.27, 0.06) })
 */
export function limitStateOf(
  text: string,
  variables: Readonly<Record<string, Distribution>>,
): LimitState {
  const symbols = Object.keys(variables);
  const read = symbolsOf(parseFormula(text));
  const unknown = [...read].filter((name) => !symbols.includes(name));
  const unused = symbols.filter((name) => !read.has(name));
  if (unknown.length > 0)
    throw new Error(
      `limitStateOf: "${text}" reads ${unknown.join(", ")}, expected only ${symbols.join(", ")}`,
    );
  if (unused.length > 0)
    throw new Error(
      `limitStateOf: "${text}" does not read ${unused.join(", ")}, expected every variable to be used`,
    );
  const formula = { text, symbols };
  return { names: symbols, marginals: Object.values(variables), g: rowFunction(formula), formula };
}

function rowFunction({ text, symbols }: LimitStateFormula): LimitState["g"] {
  const at = (name: string): string => `x[${symbols.indexOf(name)}]`;
  return compile<LimitState["g"]>(["x"], `return ${toJavaScript(parseFormula(text), at)};`);
}

/** The column loop of a formula: the same tree as the single row, so the same bits. */
export function columnFunction({ text, symbols }: LimitStateFormula): LimitStateColumns {
  const local = (name: string): string => `c${symbols.indexOf(name)}`;
  const columns = symbols.map((name, k) => `const ${local(name)} = columns[${k}];`).join(" ");
  const body = `${columns}\nfor (let i = 0; i < n; i++) out[i] = ${toJavaScript(parseFormula(text), (name) => `${local(name)}[i]`)};`;
  return compile<LimitStateColumns>(["n", "columns", "out"], body);
}
