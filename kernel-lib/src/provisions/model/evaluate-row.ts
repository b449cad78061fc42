import { compile, parseFormula, toJavaScript } from "../../formula";
import { capacityExpression, MISSING, stepsOf, symbolsRead, type ReadSymbol } from "./compile";
import type { CodeDefinition, ProvisionDefinition } from "./definition";

/** The values of the symbols a provision reads, in the order of `symbolsRead`, in the edition's units. */
export type Arguments = readonly number[];

type Body = (args: Arguments, values: Float64Array) => number;

/** One provision compiled for single rows, keeping every intermediate value. */
export interface RowEvaluator {
  readonly reads: readonly ReadSymbol[];
  readonly symbols: readonly string[];
  /** Fills `values` with the steps and returns the flags of the row (see MISSING and the order of limits). */
  evaluate(args: Arguments, values: Float64Array): number;
}

const evaluators = new WeakMap<ProvisionDefinition, RowEvaluator>();

/**
 * Compiles a provision for one row at a time: the same formulas and the same generated arithmetic as the column loop,
 * with nothing folded, so the last step equals the bulk value bit for bit. The last entry of `values` is the nominal
 * capacity, or the design capacity when the provision has a reduction, see `valueOf`.
 */
export function rowEvaluator(code: CodeDefinition, provision: ProvisionDefinition): RowEvaluator {
  const known = evaluators.get(provision);
  if (known) return known;
  const reads = symbolsRead(code, provision);
  const steps = stepsOf(provision);
  const write = (name: string): string => (name === "pi" ? "Math.PI" : name);
  const lines = reads.map(({ name }, k) => `const ${name} = args[${k}];`);
  steps.forEach((step, k) => {
    lines.push(`const ${step.symbol} = ${toJavaScript(parseFormula(step.formula), write)};`, `values[${k}] = Number(${step.symbol});`);
  });
  lines.push(`values[${steps.length}] = ${toJavaScript(capacityExpression(provision, true), write)};`, "let f = 0;");
  for (const { name } of reads) lines.push(`if (${name} !== ${name}) f = ${MISSING};`);
  provision.limits.forEach((limit, k) => lines.push(`if (!(${toJavaScript(parseFormula(limit.holds), write)})) f |= ${1 << k};`));
  lines.push("return f;");
  const run = compile<Body>(["args", "values"], lines.join("\n"));
  const evaluator: RowEvaluator = { reads, symbols: steps.map((step) => step.symbol), evaluate: (args, values) => run(args, values) };
  evaluators.set(provision, evaluator);
  return evaluator;
}

/** Where in `values` a symbol stands. @throws Error when the provision has no such step. */
export function positionOf(evaluator: RowEvaluator, symbol: string): number {
  const position = evaluator.symbols.indexOf(symbol);
  if (position < 0) throw new Error(`No step "${symbol}"; expected one of ${evaluator.symbols.join(", ")}.`);
  return position;
}

/** The capacity asked for among the values of an evaluated row, in the edition's force unit. */
export function capacityAt(evaluator: RowEvaluator, provision: ProvisionDefinition, values: Float64Array, design: boolean): number {
  return values[design ? evaluator.symbols.length : positionOf(evaluator, provision.capacity)] ?? NaN;
}
