import { compile, parseFormula, toJavaScript, type Expression } from "../../formula";
import { MISSING } from "./loop-plan";
import { NEVER, restsOnMissing } from "./missing";
import { capacityExpression, stepsOf, symbolsRead, type ReadSymbol } from "./provision-symbols";
import type { CodeDefinition, ProvisionDefinition } from "./definition";

/**
 * The values of the symbols a provision reads, in the order of `symbolsRead`, in the edition's
 * units.
 */
export type Arguments = readonly number[];

type Body = (args: Arguments, values: Float64Array, design?: boolean) => number;

/** One provision compiled for single rows, keeping every intermediate value. */
export interface RowEvaluator {
  readonly reads: readonly ReadSymbol[];
  readonly symbols: readonly string[];
  /**
   * Fills `values` with the steps and returns the flags of the row (see MISSING and the order of
   * limits), with those of the reduction at design level.
   */
  evaluate(args: Arguments, values: Float64Array, design?: boolean): number;
}

const NOTHING_KNOWN: ReadonlyMap<string, number> = new Map();
const evaluators = new WeakMap<ProvisionDefinition, RowEvaluator>();

/**
 * Compiles a provision for one row at a time: the same formulas and the same generated arithmetic
 * as the column loop, with nothing folded, so the last step equals the bulk value bit for bit. The
 * last entry of `values` is the nominal capacity, or the design capacity when the provision has a
 * reduction, see `valueOf`.
 */
export function rowEvaluator(code: CodeDefinition, provision: ProvisionDefinition): RowEvaluator {
  const known = evaluators.get(provision);
  if (known) return known;
  const reads = symbolsRead(code, provision);
  const steps = stepsOf(provision);
  const write = (name: string): string => (name === "pi" ? "Math.PI" : name);
  const lines = reads.map(
    ({ name }, k) => `const ${name} = args[${k}], lacks_${name} = ${name} !== ${name};`,
  );
  const lacks = (expression: Expression): string =>
    toJavaScript(
      restsOnMissing(expression, NOTHING_KNOWN, (name) =>
        name === "pi" ? NEVER : { kind: "symbol", name: `lacks_${name}` },
      ),
      write,
    );
  steps.forEach((step, k) => {
    const formula = parseFormula(step.formula);
    lines.push(
      `const lacks_${step.symbol} = ${lacks(formula)};`,
      `const ${step.symbol} = ${toJavaScript(formula, write)};`,
      `values[${k}] = Number(${step.symbol});`,
    );
  });
  lines.push(
    `values[${steps.length}] = ${toJavaScript(capacityExpression(provision, true), write)};`,
  );
  const limits = provision.limits.map((limit) => ({ limit, formula: parseFormula(limit.holds) }));
  const needed = limits
    .filter(({ limit }) => limit.effect === "not_applicable")
    .map(({ formula }) => lacks(formula));
  lines.push(
    `let f = ${[`(design ? ${lacks(capacityExpression(provision, true))} : lacks_${provision.capacity})`, ...needed].join(" || ")} ? ${MISSING} : 0;`,
  );
  limits.forEach(({ formula }, k) =>
    lines.push(`if (!(${toJavaScript(formula, write)}) && !(${lacks(formula)})) f |= ${1 << k};`),
  );
  lines.push("return f;");
  const run = compile<Body>(["args", "values", "design"], lines.join("\n"));
  const evaluator: RowEvaluator = {
    reads,
    symbols: steps.map((step) => step.symbol),
    evaluate: run,
  };
  evaluators.set(provision, evaluator);
  return evaluator;
}

/** Where in `values` a symbol stands. @throws Error when the provision has no such step. */
export function positionOf(evaluator: RowEvaluator, symbol: string): number {
  const position = evaluator.symbols.indexOf(symbol);
  if (position < 0)
    throw new Error(`No step "${symbol}"; expected one of ${evaluator.symbols.join(", ")}.`);
  return position;
}

/** The capacity asked for among the values of an evaluated row, in the edition's force unit. */
export function capacityAt(
  evaluator: RowEvaluator,
  provision: ProvisionDefinition,
  values: Float64Array,
  design: boolean,
): number {
  return (
    values[design ? evaluator.symbols.length : positionOf(evaluator, provision.capacity)] ?? NaN
  );
}
