import { symbolsOf, type Expression } from "./expression";
import { compile } from "./fold";
import { toJavaScript } from "./print-javascript";

/** A value by name, over columns and the values before it. */
export interface NamedValue {
  readonly name: string;
  readonly value: Expression;
}

/** A column that a loop fills: numbers, or whole numbers, which must come as zeros. */
export interface LoopOutput {
  readonly kind: "number" | "integer";
  readonly value: Expression;
  /**
   * What is kept in rows where the loop's condition fails, over columns and inputs; the value, when
   * left out.
   */
  readonly otherwise?: Expression;
}

/** Formulas over columns. */
export interface ColumnLoop {
  readonly columns: readonly string[];
  /** Values that the condition may read. */
  readonly inputs: readonly NamedValue[];
  /** Rows in which it fails skip `lines`. */
  readonly when?: Expression;
  readonly lines: readonly NamedValue[];
  readonly outputs: readonly LoopOutput[];
}

/** Runs a loop over `n` rows: columns and outputs in the order of the loop. */
export type RunLoop = (
  n: number,
  columns: readonly Float64Array[],
  outputs: readonly (Float64Array | Int32Array)[],
) => void;

/**
 * Compiles formulas into one loop over the rows of columns. The arithmetic is that of the evaluated
 * formula, bit for bit.
 * @example
 * const outputs = [{ kind: "number", value: parseFormula("2 * a") }] as const;
 * const [a, twice] = [Float64Array.of(1, 3), new Float64Array(2)];
 * compileColumnLoop({ columns: ["a"], inputs: [], lines: [], outputs })(2, [a], [twice]);
 * twice // [2, 6]
 */
export function compileColumnLoop({ columns, inputs, when, lines, outputs }: ColumnLoop): RunLoop {
  const read = new Set<string>();
  const needs = (expression: Expression): unknown => symbolsOf(expression, read);
  if (when) needs(when);
  for (const { value, otherwise } of outputs) [value, otherwise ?? value].forEach(needs);
  const linesRead = needed(lines, read);
  const inputsRead = needed(inputs, read);
  // A step may have the name of a column or of an input: each is written with a number of its own.
  const names = new Map<string, string>(columns.map((name, k) => [name, `c${k}`]));
  const written = (name: string): string => names.get(name) ?? (name === "pi" ? "Math.PI" : name);
  const js = (expression: Expression): string => toJavaScript(expression, written);
  let declared = 0;
  const declare = ({ name, value }: NamedValue): string => {
    const text = js(value);
    names.set(name, `v${(declared += 1)}`);
    return `const v${declared} = ${text};`;
  };
  const store = (pick: (output: LoopOutput) => Expression): string[] =>
    outputs.map((output, k) => {
      const text = js(pick(output));
      return output.kind === "number"
        ? `o${k}[i] = ${text};`
        : `const w${k} = ${text}; if (w${k}) o${k}[i] = w${k};`;
    });
  const used = columns.flatMap((name, k) => (read.has(name) ? [k] : []));
  const body: string[] = [
    ...used.map((k) => `const c${k} = from${k}[i];`),
    ...inputsRead.map(declare),
  ];
  if (when)
    body.push(
      `if (!(${js(when)})) { ${store(({ value, otherwise }) => otherwise ?? value).join(" ")} continue; }`,
    );
  body.push(...linesRead.map(declare), ...store(({ value }) => value));
  const heads = [
    ...used.map((k) => `const from${k} = columns[${k}];`),
    ...outputs.map((_, k) => `const o${k} = outputs[${k}];`),
  ];
  const text = `${heads.join("\n")}\nfor (let i = 0; i < n; i++) {\n${body.join("\n")}\n}`;
  return compile<RunLoop>(["n", "columns", "outputs"], text);
}

/** The lines that anything depends on, in order; what they depend on in turn is added to `read`. */
function needed(lines: readonly NamedValue[], read: Set<string>): readonly NamedValue[] {
  return [...lines]
    .reverse()
    .filter(({ name, value }) => read.has(name) && symbolsOf(value, read))
    .reverse();
}
