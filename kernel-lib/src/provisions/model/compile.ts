import { compile, foldConstants, mostThatHold, parseFormula, symbolsOf, toJavaScript, type Expression } from "../../formula";
import { INPUTS, isInput } from "../inputs/catalogue";
import type { CodeDefinition, ProvisionDefinition } from "./definition";
import { missingSource } from "./missing";
import type { Quantity } from "./unit-system";

/** A column as a formula reads it: one value for every row, or the same for all. */
export interface InputColumn {
  readonly values: Float64Array | number;
  /** Whether any row misses the value (NaN). */
  readonly hasMissing: boolean;
}

/** A symbol that a provision reads without defining it. */
export interface ReadSymbol {
  readonly name: string;
  readonly quantity: Quantity;
  readonly origin: "input" | "option";
  readonly meaning: string;
}

/** Bit that marks a row with a missing input; bits 0 to 28 mark the limits in the order of the definition. */
export const MISSING = 1 << 30;

/** Bit that marks, until it has been taken apart, a group some of whose bars do not act together. */
export const APART = 1 << 29;

/** The loop of one provision over `n` rows, and the symbols whose columns it takes, in the edition's units, in order. */
export interface CompiledLoop {
  run(n: number, columns: readonly Float64Array[], capacity: Float64Array, flags: Int32Array): void;
  readonly columns: readonly string[];
  /** Whether a row may have to be taken apart afterwards. */
  readonly mayPart: boolean;
}

/** The symbols a provision reads from rows and options, in order of first use; refuses undefined ones. */
export function symbolsRead(code: CodeDefinition, provision: ProvisionDefinition): readonly ReadSymbol[] {
  const defined = new Set<string>();
  const read = new Map<string, ReadSymbol>();
  const visit = (formula: string, where: string): void => {
    for (const name of symbolsOf(parseFormula(formula))) {
      if (defined.has(name) || read.has(name) || name === "pi") continue;
      const option = code.options[name];
      if (option) read.set(name, { name, quantity: option.quantity, origin: "option", meaning: option.meaning });
      else if (isInput(name)) read.set(name, { name, quantity: INPUTS[name].quantity, origin: "input", meaning: INPUTS[name].meaning });
      else throw new Error(`${provision.id}, ${where}: symbol "${name}" is neither an earlier step, an input nor an option of ${code.id}.`);
    }
  };
  for (const step of stepsOf(provision)) {
    visit(step.formula, `step ${step.symbol}`);
    defined.add(step.symbol);
  }
  for (const limit of provision.limits) visit(limit.holds, `limit ${limit.clause}`);
  return [...read.values()];
}

/** All steps including the reduction, which comes last. */
export function stepsOf(provision: ProvisionDefinition): ProvisionDefinition["steps"] {
  return provision.reduction ? [...provision.steps, provision.reduction] : provision.steps;
}

/**
 * Writes and compiles the loop of one provision for given columns. Columns that are the same in every row are folded
 * into the formulas, so a data set without groups or near edges pays nothing for them.
 */
export function compileLoop(code: CodeDefinition, provision: ProvisionDefinition, design: boolean, columnOf: (name: string) => InputColumn): CompiledLoop {
  const known = new Map<string, number>([["pi", Math.PI]]);
  const missing = new Map<string, string>();
  const columns: string[] = [];
  const lines: string[] = [];
  const write = (name: string): string => name;
  const restsOnMissing = (formula: Expression): string => missingSource(formula, known, (name) => missing.get(name) ?? "false", write);
  for (const { name } of symbolsRead(code, provision)) {
    const column = columnOf(name);
    if (typeof column.values === "number") {
      known.set(name, column.values);
      if (Number.isNaN(column.values)) missing.set(name, "true");
      continue;
    }
    lines.push(`const ${name} = c${columns.length}[i];`);
    if (column.hasMissing) missing.set(name, `${name} !== ${name}`);
    columns.push(name);
  }
  // Steps that count conditions (edges nearby) never exceed a number, which settles what asks for more.
  const counts = new Map<string, number>();
  const most = (name: string): number => counts.get(name) ?? Infinity;
  const value = (expression: Expression): string => toJavaScript(foldConstants(expression, known, most), write);
  // A row that a limit over its inputs alone withholds (no edge near, not this material) needs no step at all.
  const inputs = new Set([...columns, ...known.keys()]);
  provision.limits.forEach((limit, k) => {
    const formula = parseFormula(limit.holds);
    if (limit.effect !== "not_applicable" || [...symbolsOf(formula)].some((name) => !inputs.has(name)) || restsOnMissing(formula) !== "false") return;
    if (Number(value(formula)) === 1) return;
    lines.push(`if (!(${value(formula)})) { flags[i] = ${1 << k}; capacity[i] = NaN; continue; }`);
  });
  for (const step of design ? stepsOf(provision) : provision.steps) {
    const formula = parseFormula(step.formula);
    const lacks = restsOnMissing(formula);
    if (lacks.includes(" ")) lines.push(`const lacks_${step.symbol} = ${lacks};`);
    if (lacks !== "false") missing.set(step.symbol, lacks.includes(" ") ? `lacks_${step.symbol}` : lacks);
    const folded = foldConstants(formula, known, most);
    counts.set(step.symbol, mostThatHold(folded, most));
    if (folded.kind === "number") known.set(step.symbol, folded.value);
    else lines.push(`const ${step.symbol} = ${toJavaScript(folded, write)};`);
  }
  const capacityFormula = capacityExpression(provision, design);
  const judged = provision.limits.map((limit) => ({ limit, holds: value(parseFormula(limit.holds)), lacks: restsOnMissing(parseFormula(limit.holds)) }));
  // A limit that withholds must be known to hold; one that is only reported may go unjudged.
  const lacking = [restsOnMissing(capacityFormula), ...judged.filter(({ limit }) => limit.effect === "not_applicable").map(({ lacks }) => lacks)].filter((lacks) => lacks !== "false");
  lines.push(`let f = ${lacking.length === 0 ? "0" : `${[...new Set(lacking)].join(" || ")} ? ${MISSING} : 0`};`);
  let withholds = lacking.length > 0 ? MISSING : 0;
  judged.forEach(({ limit, holds, lacks }, k) => {
    if (Number(holds) !== 0 && !Number.isNaN(Number(holds))) return;
    lines.push(`if (!(${holds})${lacks === "false" ? "" : ` && !(${lacks})`}) f |= ${1 << k};`);
    if (limit.effect === "not_applicable") withholds |= 1 << k;
  });
  const apart = value(apartCondition(provision, columns, known));
  if (Number(apart) !== 0) lines.push(`if (${apart}) f |= ${APART};`);
  const force = code.system.inSi.force;
  const capacity = value(capacityFormula);
  const stated = `(${capacity})${force === 1 ? "" : ` * ${force}`}`;
  // Flags begin as 0: memory of rows without any is never touched.
  if (lines.at(-1) !== "let f = 0;") lines.push("if (f !== 0) flags[i] = f;");
  lines.push(withholds === 0 ? `capacity[i] = ${stated};` : `capacity[i] = (f & ${withholds}) !== 0 ? NaN : ${stated};`);
  const heads = columns.map((_, k) => `const c${k} = columns[${k}];`);
  const body = `${heads.join("\n")}\nfor (let i = 0; i < n; i++) {\n${lines.join("\n")}\n}`;
  return { run: compile<CompiledLoop["run"]>(["n", "columns", "capacity", "flags"], body), columns, mayPart: Number(apart) !== 0 };
}

/** The expression of the value asked for: the capacity, times the reduction at design level. */
export function capacityExpression(provision: ProvisionDefinition, design: boolean): Expression {
  const capacity: Expression = { kind: "symbol", name: provision.capacity };
  if (!design || !provision.reduction) return capacity;
  return { kind: "binary", operator: "*", left: { kind: "symbol", name: provision.reduction.symbol }, right: capacity };
}

/** When a group must be taken apart: more than one bar, farther apart than the critical spacing. */
function apartCondition({ split }: ProvisionDefinition, columns: readonly string[], known: ReadonlyMap<string, number>): Expression {
  const reads = (name: string): boolean => columns.includes(name) || known.has(name);
  const sides = (["x", "y"] as const).filter((side) => split?.[side] !== undefined && reads(`n_${side}`) && reads(`s_${side}`));
  return parseFormula(sides.map((side) => `n_${side} > 1 && s_${side} > ${split?.[side] ?? ""}`).join(" || ") || "0");
}
