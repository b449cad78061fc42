import jsep from "jsep";
import { FUNCTIONS, type BinaryOperator, type Expression, type FunctionName } from "./expression";

// "^" is a power here, binding tighter than "*" and from the right, as engineers write it.
jsep.addBinaryOp("^", 11, true);

const BINARY = new Set<string>([
  "+",
  "-",
  "*",
  "/",
  "^",
  "<",
  "<=",
  ">",
  ">=",
  "==",
  "!=",
  "&&",
  "||",
]);
const parsed = new Map<string, Expression>();

/**
 * Parses a formula such as `"k_c * lambda_a * sqrt(f_c) * h_ef^1.5"`.
 *
 * Operators: + - * / ^ < <= > >= == != && || !; functions: sqrt exp ln abs sin cos min max if.
 * A condition used as a number counts 1 when it holds, else 0.
 *
 * @throws Error naming the formula and the part that is not of the language.
 * @example parseFormula("min(a, 2 * b)")
 */
export function parseFormula(formula: string): Expression {
  const known = parsed.get(formula);
  if (known !== undefined) return known;
  let tree: jsep.Expression;
  try {
    tree = jsep(formula);
  } catch (error) {
    throw new Error(
      `Formula "${formula}" cannot be read: ${(error as Error).message}; expected an expression such as "2 * a / sqrt(b)".`,
    );
  }
  const expression = convert(tree, formula);
  parsed.set(formula, expression);
  return expression;
}

function convert(node: jsep.Expression, formula: string): Expression {
  const refuse = (what: string): never => {
    throw new Error(
      `Formula "${formula}" holds ${what}; expected numbers, symbols, + - * / ^, comparisons, && || ! and ${Object.keys(FUNCTIONS).join(", ")}.`,
    );
  };
  switch (node.type) {
    case "Literal": {
      const { value } = node as jsep.Literal;
      return typeof value === "number"
        ? { kind: "number", value }
        : refuse(`the literal ${JSON.stringify(value)}`);
    }
    case "Identifier":
      return { kind: "symbol", name: (node as jsep.Identifier).name };
    case "UnaryExpression": {
      const { operator, argument } = node as jsep.UnaryExpression;
      const operand = convert(argument, formula);
      if (operator === "+") return operand;
      return operator === "-" || operator === "!"
        ? { kind: "unary", operator, operand }
        : refuse(`the operator "${operator}"`);
    }
    case "BinaryExpression": {
      const { operator, left, right } = node as jsep.BinaryExpression;
      if (!BINARY.has(operator)) return refuse(`the operator "${operator}"`);
      // Read as (-a)^2 by spreadsheets and as -(a^2) by engineers; the tree does not show which was
      // meant.
      if (operator === "^" && left.type === "UnaryExpression")
        return refuse("a sign before a power, which reads two ways; write 0 - a^2 or (0 - a)^2");
      return {
        kind: "binary",
        operator: operator as BinaryOperator,
        left: convert(left, formula),
        right: convert(right, formula),
      };
    }
    case "CallExpression": {
      const { callee, arguments: args } = node as jsep.CallExpression;
      const name = callee.type === "Identifier" ? (callee as jsep.Identifier).name : "";
      if (!Object.hasOwn(FUNCTIONS, name)) return refuse(`the function "${name}"`);
      const wanted = FUNCTIONS[name as FunctionName];
      if (Number.isFinite(wanted) ? args.length !== wanted : args.length === 0)
        return refuse(`${name} with ${args.length} argument(s)`);
      return {
        kind: "call",
        name: name as FunctionName,
        args: args.map((argument) => convert(argument, formula)),
      };
    }
    default:
      return refuse(`a part of kind ${node.type}`);
  }
}
