import { evaluate } from "./evaluate";
import type { Expression } from "./expression";

/**
 * A value and how it follows one variable x: `change` = dv/d ln x, `elasticity` = d ln v/d ln x
 * (percent change of the value per 1 % change of x; without meaning where the value is 0).
 */
export interface Rate {
  readonly value: number;
  readonly change: number;
  readonly elasticity: number;
}

/** The rate of a value that follows x with a known power. */
export function rateOfPower(value: number, elasticity: number): Rate {
  return { value, change: value === 0 || elasticity === 0 ? 0 : value * elasticity, elasticity };
}

function rateOfChange(value: number, change: number): Rate {
  return { value, change, elasticity: change === 0 ? 0 : change / value };
}

/**
 * The value of an expression with its exact elasticity, by the chain rule along the tree (no
 * differences). Elasticities are added and multiplied as such, so a power law keeps its exponent to
 * the last bit.
 *
 * At a kink (a minimum, a maximum, a condition) the branch that the value itself takes counts,
 * hence one side of it.
 * @param rate value and rate of each symbol
 * @param decided told of every branch taken, in order: two evaluations that tell the same lie on
 *   one smooth piece
 * @example rateOf(parseFormula("2 * h^1.5"), () => rateOfPower(4, 1)).elasticity // 1.5
 */
export function rateOf(
  expression: Expression,
  rate: (name: string) => Rate,
  decided: (branch: number) => void = () => undefined,
): Rate {
  const of = (e: Expression): Rate => rateOf(e, rate, decided);
  switch (expression.kind) {
    case "number":
      return rateOfPower(expression.value, 0);
    case "symbol":
      return expression.name === "pi" ? rateOfPower(Math.PI, 0) : rate(expression.name);
    case "unary": {
      const operand = of(expression.operand);
      return expression.operator === "-"
        ? { value: -operand.value, change: -operand.change, elasticity: operand.elasticity }
        : rateOfPower(Number(!operand.value), 0);
    }
    case "binary":
      return binary(expression, of, decided);
    case "call":
      return call(expression, of, decided);
  }
}

function binary(
  { operator, left, right }: Extract<Expression, { kind: "binary" }>,
  of: (e: Expression) => Rate,
  decided: (branch: number) => void,
): Rate {
  const a = of(left);
  if (operator === "&&" || operator === "||") {
    const first = Boolean(a.value);
    return rateOfPower(
      first === (operator === "&&") ? Number(Boolean(of(right).value)) : Number(first),
      0,
    );
  }
  const b = of(right);
  const value = evaluate(
    {
      kind: "binary",
      operator,
      left: { kind: "symbol", name: "a" },
      right: right.kind === "number" ? right : { kind: "symbol", name: "b" },
    },
    (name) => (name === "a" ? a.value : b.value),
  );
  switch (operator) {
    case "+":
      return a.elasticity === b.elasticity
        ? rateOfPower(value, a.elasticity)
        : rateOfChange(value, a.change + b.change);
    case "-":
      return a.elasticity === b.elasticity
        ? rateOfPower(value, a.elasticity)
        : rateOfChange(value, a.change - b.change);
    case "*":
      return value === 0
        ? rateOfChange(value, weighted(a.change, b.value) + weighted(b.change, a.value))
        : rateOfPower(value, a.elasticity + b.elasticity);
    case "/":
      return value === 0
        ? rateOfChange(value, weighted(a.change, 1 / b.value))
        : rateOfPower(value, a.elasticity - b.elasticity);
    case "^":
      return rateOfPower(
        value,
        weighted(a.elasticity, b.value) + weighted(b.change, Math.log(a.value)),
      );
    default:
      decided(level(a.value, b.value) ? TIE : value);
      return rateOfPower(value, 0);
  }
}

/**
 * Told in place of a branch where both sides are equal but for rounding, as they may be over a
 * whole piece.
 */
const TIE = 9;

function level(a: number, b: number): boolean {
  return a === b || Math.abs(a - b) <= 1e-12 * Math.max(Math.abs(a), Math.abs(b));
}

/** Nothing times anything is nothing, also times infinity: a far edge, the logarithm of zero. */
function weighted(rate: number, weight: number): number {
  return rate === 0 || weight === 0 ? 0 : rate * weight;
}

function call(
  { name, args }: Extract<Expression, { kind: "call" }>,
  of: (e: Expression) => Rate,
  decided: (branch: number) => void,
): Rate {
  const [first, second, third] = args as [Expression, Expression, Expression];
  if (name === "if") return of(of(first).value ? second : third);
  if (name === "min" || name === "max") {
    return args.map(of).reduce((least, next, k) => {
      const value = Math[name](least.value, next.value);
      const taken = value === least.value ? least : next;
      decided(level(least.value, next.value) ? TIE : taken === least ? 0 : k);
      return { ...taken, value };
    });
  }
  const { value, change, elasticity } = of(first);
  const result = Math[name === "ln" ? "log" : name](value);
  switch (name) {
    case "sqrt":
      return rateOfPower(result, elasticity / 2);
    case "abs":
      return rateOfPower(result, elasticity);
    case "exp":
      return rateOfPower(result, change);
    case "ln":
      return rateOfChange(result, elasticity);
    case "sin":
      return rateOfChange(result, weighted(change, Math.cos(value)));
    case "cos":
      return rateOfChange(result, weighted(-change, Math.sin(value)));
  }
}
