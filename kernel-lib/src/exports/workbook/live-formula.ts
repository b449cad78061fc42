import { mapOperands, toSpreadsheet, type Expression } from "../../formula";

const TRUTH = new Set(["<", "<=", ">", ">=", "==", "!=", "&&", "||"]);

/**
 * A step of a hand calculation as a spreadsheet formula (without "="), with `cell` giving the
 * address of each symbol.
 *
 * Spreadsheets look at both sides of AND and OR, the library only at what decides, and they hold
 * TRUE apart from 1: both are written with IF, so that a value that is not given spoils no formula
 * that does not need it.
 * @example
 * liveFormula(parseFormula("k * sqrt(f_c)"), (name) => (name === "k" ? "E5" : "E6")) // "(E5*SQRT(E6))"
 */
export function liveFormula(expression: Expression, cell: (name: string) => string): string {
  return toSpreadsheet(asNumber(decided(expression)), (name) =>
    name === "pi" ? "PI()" : cell(name),
  );
}

const one: Expression = { kind: "number", value: 1 };
const none: Expression = { kind: "number", value: 0 };
const choose = (condition: Expression, yes: Expression, no: Expression): Expression => ({
  kind: "call",
  name: "if",
  args: [condition, yes, no],
});

function asNumber(expression: Expression): Expression {
  const isTruth =
    (expression.kind === "binary" && TRUTH.has(expression.operator)) ||
    (expression.kind === "unary" && expression.operator === "!");
  return isTruth ? choose(expression, one, none) : expression;
}

function decided(expression: Expression): Expression {
  if (expression.kind !== "binary") return mapOperands(expression, decided);
  const [left, right] = [decided(expression.left), decided(expression.right)];
  if (expression.operator === "&&") return choose(left, asNumber(right), none);
  if (expression.operator === "||") return choose(left, one, asNumber(right));
  return { ...expression, left: asOperand(left), right: asOperand(right) };
}

/** A comparison inside arithmetic counts as 1 or 0. */
function asOperand(expression: Expression): Expression {
  return asNumber(expression);
}
