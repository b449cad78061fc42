import type { Expression } from "./expression";

/**
 * Writes an expression as a spreadsheet formula (without the leading "="), with `cell` giving the
 * address of each symbol. Everything is bracketed, since spreadsheets let a minus sign bind tighter
 * than a power.
 * @example toSpreadsheet(parseFormula("a^2"), () => "B4") // "(B4^2)"
 */
export function toSpreadsheet(expression: Expression, cell: (name: string) => string): string {
  const write = (e: Expression): string => toSpreadsheet(e, cell);
  switch (expression.kind) {
    case "number":
      return expression.value === Infinity ? "1E+300" : String(expression.value).toUpperCase();
    case "symbol":
      return cell(expression.name);
    case "unary":
      return expression.operator === "!"
        ? `NOT(${write(expression.operand)})`
        : `(0-${write(expression.operand)})`;
    case "binary": {
      const [left, right] = [write(expression.left), write(expression.right)];
      switch (expression.operator) {
        case "&&":
          return `AND(${left},${right})`;
        case "||":
          return `OR(${left},${right})`;
        case "==":
          return `(${left}=${right})`;
        case "!=":
          return `(${left}<>${right})`;
        default:
          return `(${left}${expression.operator}${right})`;
      }
    }
    case "call":
      return `${expression.name.toUpperCase()}(${expression.args.map(write).join(",")})`;
  }
}
