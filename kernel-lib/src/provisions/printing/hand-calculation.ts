import { symbolText, toLatex, toText, type Expression } from "../../formula";
import type { Trace, TraceLine, TracePart } from "../model/trace";
import { INPUTS, isInput } from "../inputs/catalogue";
import { branchTaken } from "./branch-taken";
import { clauseWords } from "./clause-words";
import { symbolsInWords } from "./symbols-in-words";
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
  /** Characters of a line of the text form; 100 when left out. */
  readonly width?: number;
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
    source: `${code.title}; ${code.edition}. ${upperFirst([clauseWords(provision.id), trace.length_mm === undefined ? `${level} level` : ""].filter(Boolean).join(", "))}. Units ${code.system.name}${code.system.inSi.length === 1 ? "" : "; mm, kN, MPa in brackets"}.`,
    parts: trace.parts.map((part, k) => writtenPart(part, trace.parts.length > 1 ? `Part ${k + 1} of ${trace.parts.length}: ${part.label}` : "")),
    result: resultSentence(trace),
    notes: [...trace.restsOn.map((says) => `Rests on an input not stated: ${says}.`), ...(provision.confidence === "M" ? [`To be checked against a licensed copy of the source${provision.toCheck ? `: ${provision.toCheck}` : ""}.`] : []), ...(provision.notes ?? [])],
    governing: context.governing ?? "",
    caution: CALCULATION_CAUTION,
  };
}

function writtenPart(part: TracePart, heading: string): CalculationPart {
  const values = new Map([...part.inputs, ...part.steps].map(({ symbol, value }) => [symbol, value]));
  const value = (name: string): number => (name === "pi" ? Math.PI : (values.get(name) ?? NaN));
  const number = (name: string): string => (name === "pi" ? "π" : bracketed(writtenNumber(values.get(name) ?? NaN)));
  return {
    heading,
    inputs: part.inputs.map((line) => written(line, number, value)),
    steps: part.steps.filter(({ unprinted }) => !unprinted).map((line) => written(line, number, value)),
    limits: part.limits.map(({ holds, clause, condition, says }) => ({
      verdict: holds === null ? "cannot be judged, an input is missing" : holds ? "holds" : "does not hold",
      clause,
      says: holds === true ? `${conditionText(condition)} (if not: ${says})` : `${says} (needs ${conditionText(condition)})`,
    })),
  };
}

function written(line: TraceLine, number: (name: string) => string, value: (name: string) => number): CalculationLine {
  const expression = line.expression && conditionShown(line.expression);
  // A condition keeps both its outcomes in sight; any other distinction shows the case that was taken.
  const filled = line.expression && (expression === line.expression ? branchTaken(line.expression, value) : expression);
  // One symbol or number says the value already.
  const says = filled === undefined || filled.kind === "number" || filled.kind === "symbol";
  const show = (of: Expression | undefined, print: (e: Expression) => string): string => (of ? print(of) : "");
  const latexNumber = (name: string): string => number(name).replace("∞", "\\infty ").replace("−", "-").replace("π", "\\pi ").replace(/^missing$/, "\\text{missing}").replace(/e(-?\d+)/, " \\times 10^{$1}");
  return {
    symbol: symbolText(line.symbol),
    symbolName: line.symbol,
    formula: show(expression, (e) => unbracketed(e, toText(e))),
    substituted: says ? "" : show(filled, (e) => unbracketed(e, toText(e, number))),
    value: writtenValue(line.value, line.unit, line.valueSi, line.unitSi),
    clause: line.clause,
    meaning: symbolsInWords(line.meaning),
    formulaLatex: show(expression, (e) => toLatex(e)),
    substitutedLatex: says ? "" : show(filled, (e) => toLatex(e, latexNumber)),
  };
}

function upperFirst(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A case distinction that is the whole formula needs no brackets around it. */
function unbracketed(expression: Expression, text: string): string {
  return expression.kind === "call" && expression.name === "if" ? text.slice(1, -1) : text;
}

/** A distance of a kilometre stands for a far edge. */
function conditionText(condition: Expression): string {
  return toText(condition).replace(/\b1000000\b/g, "∞");
}

/** A step that is a condition counts 1 or 0, and is written so: `a = 1 and b = 0` alone would read as an equation. */
function conditionShown(expression: Expression): Expression {
  const compares = expression.kind === "binary" && ["==", "!=", "<", "<=", ">", ">=", "&&", "||"].includes(expression.operator);
  return compares ? { kind: "call", name: "if", args: [expression, { kind: "number", value: 1 }, { kind: "number", value: 0 }] } : expression;
}

function bracketed(number: string): string {
  return number.startsWith("-") || number.includes("e") ? `(${number})` : number;
}

function resultSentence({ capacity_N, length_mm, parts, code, provision, level }: Trace): string {
  if (length_mm !== undefined) {
    if (Number.isNaN(length_mm)) return `No length is stated: ${whyWithheld(parts)}.`;
    return `Length: ${writtenValue(length_mm / code.system.inSi.length, code.system.unit.length, length_mm, "mm")}.`;
  }
  if (Number.isNaN(capacity_N)) return `No capacity is stated: ${whyWithheld(parts)}.`;
  const own = writtenValue(capacity_N / code.system.inSi.force, code.system.unit.force, capacity_N / 1000, "kN");
  const what = level === "design" && provision.reduction ? "Design capacity" : "Capacity";
  return parts.length > 1 ? `${what}, sum of ${parts.length} parts that do not act together: ${own}.` : `${what}: ${own}.`;
}

/** What withholds a value: the limits that do not hold, else the inputs that are missing with the columns they come from. */
function whyWithheld(parts: readonly TracePart[]): string {
  const failing = parts.flatMap(({ limits }) => limits.filter(({ holds, effect }) => holds === false && effect === "not_applicable").map(({ clause, says }) => `${clause}, ${says}`));
  if (failing.length > 0) return [...new Set(failing)].join("; ");
  const missing = [...new Set(parts.flatMap((part) => part.missing))];
  if (missing.length === 0) return "a limit cannot be judged, an input is missing";
  return `needs ${missing.map((name) => `${symbolText(name)}${isInput(name) && "column" in INPUTS[name] ? ` (column ${INPUTS[name].column})` : ""}`).join(", ")}`;
}
