import {
  numberHtml,
  symbolText,
  toHtmlLine,
  toLatex,
  toText,
  type Expression,
} from "../../formula";
import type { TraceLine } from "../model/trace";
import { statementOf } from "../model/yes-or-no";
import { branchTaken } from "./branch-taken";
import { symbolsInWords } from "./symbols-in-words";
import { decisionsIn } from "./used-lines";
import { writtenNumber, writtenValue } from "./written-number";

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
  /** The same as lines of HTML without MathML. */
  readonly formulaHtml: string;
  readonly substitutedHtml: string;
}

/** The values of one part, and which of its symbols are no measured quantity. */
export interface PartValues {
  readonly value: (name: string) => number;
  readonly isSetting: (name: string) => boolean;
}

/**
 * One line as an engineer writes it: the case that the row takes, with what decided it, and yes or
 * no in words. A case that a missing value leaves open keeps both its outcomes.
 */
export function writtenLine(line: TraceLine, { value, isSetting }: PartValues): CalculationLine {
  const number = (name: string): string =>
    name === "pi" ? "π" : bracketed(writtenNumber(value(name)));
  const condition = line.expression !== undefined && isCondition(line.expression);
  const expression =
    line.expression &&
    (condition ? asNumber(line.expression) : branchTaken(line.expression, value));
  // A number says the value already, one symbol needs no numbers.
  const formula = expression?.kind === "number" ? undefined : expression;
  const says = formula === undefined || formula.kind === "symbol";
  const show = (of: Expression | undefined, print: (e: Expression) => string): string =>
    of ? print(of) : "";
  const latexNumber = (name: string): string =>
    number(name)
      .replace("∞", "\\infty ")
      .replace("−", "-")
      .replace("π", "\\pi ")
      .replace(/^missing$/, "\\text{missing}")
      .replace(/e(-?\d+)/, " \\times 10^{$1}");
  const statement = statementOf(line.meaning);
  const decisions =
    line.expression && !condition
      ? [...new Set(decisionsIn(line.expression, value, isSetting).map((one) => toText(one)))]
      : [];
  return {
    symbol: symbolText(line.symbol),
    symbolName: line.symbol,
    formula: show(formula, (e) => unbracketed(e, toText(e))),
    substituted: says ? "" : show(expression, (e) => unbracketed(e, toText(e, number))),
    value:
      statement !== null && (line.value === 0 || line.value === 1)
        ? line.value === 1
          ? "yes"
          : "no"
        : writtenValue(line.value, line.unit, line.valueSi, line.unitSi),
    clause: line.clause,
    meaning: `${symbolsInWords(statement ?? line.meaning)}${decisions.length === 0 ? "" : `, since ${decisions.join(" and ")}`}`,
    formulaLatex: show(formula, (e) => toLatex(e)),
    substitutedLatex: says ? "" : show(expression, (e) => toLatex(e, latexNumber)),
    formulaHtml: show(formula, (e) => unbracketed(e, toHtmlLine(e))),
    substitutedHtml: says
      ? ""
      : show(expression, (e) =>
          unbracketed(
            e,
            toHtmlLine(e, (name) => numberHtml(number(name))),
          ),
        ),
  };
}

/** A case distinction that is the whole formula needs no brackets around it. */
function unbracketed(expression: Expression, text: string): string {
  return expression.kind === "call" && expression.name === "if" ? text.slice(1, -1) : text;
}

function isCondition(expression: Expression): boolean {
  return (
    expression.kind === "binary" &&
    ["==", "!=", "<", "<=", ">", ">=", "&&", "||"].includes(expression.operator)
  );
}

/**
 * A step that is a condition counts 1 or 0, and is written so: `a = 1 and b = 0` alone would read
 * as an equation.
 */
function asNumber(expression: Expression): Expression {
  return {
    kind: "call",
    name: "if",
    args: [expression, { kind: "number", value: 1 }, { kind: "number", value: 0 }],
  };
}

function bracketed(number: string): string {
  return number.startsWith("-") || number.includes("e") ? `(${number})` : number;
}
