import { symbolText, toLatex, toText, type Expression } from "../../formula";
import { clauseOf } from "../model/reasons";
import type { Trace, TraceLine, TracePart } from "../model/trace";
import { writtenNumber, writtenValue } from "./written-number";

/** The caution that closes every hand calculation. */
export const CALCULATION_CAUTION =
  "Research use only, to compare tests with a code's equations; no design. Failures of anchorages can kill: design follows the local code and a licensed engineer.";

/** What the reader of one hand calculation may need besides it. */
export interface CalculationContext {
  /** Which test the calculation belongs to. */
  readonly test?: string;
  /** The sentence that says which capacity governs, see `governingSentence`. */
  readonly governing?: string;
}

/** One line of a hand calculation, ready to print. */
export interface CalculationLine {
  readonly symbol: string;
  /** The formula in symbols and with numbers in place of them; empty for an input. */
  readonly formula: string;
  readonly substituted: string;
  readonly value: string;
  readonly clause: string;
  readonly meaning: string;
  readonly symbolName: string;
  readonly formulaLatex: string;
  readonly substitutedLatex: string;
}

/** One acting group of a hand calculation, ready to print. */
export interface CalculationPart {
  readonly heading: string;
  readonly inputs: readonly CalculationLine[];
  readonly steps: readonly CalculationLine[];
  readonly limits: readonly { readonly verdict: string; readonly clause: string; readonly says: string }[];
}

/** A hand calculation as words and lines, which the text, Markdown and HTML forms lay out. */
export interface Calculation {
  readonly title: string;
  readonly source: string;
  readonly parts: readonly CalculationPart[];
  readonly result: string;
  readonly notes: readonly string[];
  readonly governing: string;
  readonly caution: string;
}

/** Prepares a trace for printing. */
export function calculation(trace: Trace, context: CalculationContext = {}): Calculation {
  const { code, provision, level } = trace;
  return {
    title: context.test === undefined ? provision.title : `${provision.title}: test ${context.test}`,
    source: `${code.title}; ${code.edition}. Clause ${clauseOf(provision.id)}, ${level} level. Units ${code.system.name}${code.system.inSi.length === 1 ? "" : "; mm, kN, MPa in brackets"}.`,
    parts: trace.parts.map((part, k) => writtenPart(part, trace.parts.length > 1 ? `Part ${k + 1} of ${trace.parts.length}: ${part.label}` : "")),
    result: resultSentence(trace),
    notes: [...(provision.confidence === "M" ? [`To be checked against a licensed copy of the source${provision.toCheck ? `: ${provision.toCheck}` : ""}.`] : []), ...(provision.notes ?? [])],
    governing: context.governing ?? "",
    caution: CALCULATION_CAUTION,
  };
}

function writtenPart(part: TracePart, heading: string): CalculationPart {
  const values = new Map([...part.inputs, ...part.steps].map(({ symbol, value }) => [symbol, value]));
  const number = (name: string): string => (name === "pi" ? "π" : bracketed(writtenNumber(values.get(name) ?? NaN)));
  return {
    heading,
    inputs: part.inputs.map((line) => written(line, number)),
    steps: part.steps.map((line) => written(line, number)),
    limits: part.limits.map(({ holds, clause, condition, says }) => ({
      verdict: holds === null ? "cannot be judged, an input is missing" : holds ? "holds" : "does not hold",
      clause,
      says: holds === true ? `${toText(condition)} (if not: ${says})` : `${says} (needs ${toText(condition)})`,
    })),
  };
}

function written(line: TraceLine, number: (name: string) => string): CalculationLine {
  const expression = line.expression && conditionShown(line.expression);
  const show = (print: (e: Expression) => string): string => (expression ? print(expression) : "");
  const latexNumber = (name: string): string => number(name).replace("∞", "\\infty ").replace("−", "-").replace("π", "\\pi ").replace(/^missing$/, "\\text{missing}").replace(/e(-?\d+)/, " \\times 10^{$1}");
  return {
    symbol: symbolText(line.symbol),
    symbolName: line.symbol,
    formula: show((e) => toText(e)),
    // A plain number needs no second line saying it again.
    substituted: line.expression?.kind === "number" ? "" : show((e) => toText(e, number)),
    value: writtenValue(line.value, line.unit, line.valueSi, line.unitSi),
    clause: line.clause,
    meaning: line.meaning,
    formulaLatex: show((e) => toLatex(e)),
    substitutedLatex: line.expression?.kind === "number" ? "" : show((e) => toLatex(e, latexNumber)),
  };
}

/** A step that is a condition counts 1 or 0, and is written so: `a = 1 and b = 0` alone would read as an equation. */
function conditionShown(expression: Expression): Expression {
  const compares = expression.kind === "binary" && ["==", "!=", "<", "<=", ">", ">=", "&&", "||"].includes(expression.operator);
  return compares ? { kind: "call", name: "if", args: [expression, { kind: "number", value: 1 }, { kind: "number", value: 0 }] } : expression;
}

function bracketed(number: string): string {
  return number.startsWith("-") || number.includes("e") ? `(${number})` : number;
}

function resultSentence({ capacity_N, parts, code, provision, level }: Trace): string {
  if (Number.isNaN(capacity_N)) return "No capacity is stated: a limit does not hold or an input is missing.";
  const own = writtenValue(capacity_N / code.system.inSi.force, code.system.unit.force, capacity_N / 1000, "kN");
  const what = level === "design" && provision.reduction ? "Design capacity" : "Capacity";
  return parts.length > 1 ? `${what}, sum of ${parts.length} parts that do not act together: ${own}.` : `${what}: ${own}.`;
}
