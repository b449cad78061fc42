import { evaluate } from "../evaluate";
import type { BinaryOperator, Expression, FunctionName } from "../expression";
import { holds } from "../fold";

export type GraphOperation = "number" | "column" | "holds" | "count" | "blank" | "negative" | "not" | Exclude<BinaryOperator, "^"> | "power" | FunctionName;

/** One value of a graph; `of` are the numbers of its operands. Every node is made once, whoever asks for it. */
export interface GraphNode {
  readonly operation: GraphOperation;
  readonly of: readonly number[];
  /** A constant's value, or the number of a column. */
  readonly value: number;
  /** A condition (holds or not) rather than a number. */
  readonly condition: boolean;
}

/**
 * Formulas as one graph in which equal parts stand once, whichever formula they come from.
 *
 * Only what leaves every bit alone is simplified, NaN and infinity included: 1 x = x, x / 1 = x, a choice between equals,
 * and c + 0 / x = c unless x is 0 or NaN. What makes a product or quotient NaN is drawn outwards (`blank`) and asked once.
 * `count` takes a condition as 1 or 0, `holds` a number as a condition.
 */
export class ValueGraph {
  readonly nodes: GraphNode[] = [];
  readonly #known = new Map<string, number>();

  /** The node of an expression, its symbols being nodes already. @throws Error for a symbol without a node */
  add(expression: Expression, symbols: ReadonlyMap<string, number>): number {
    switch (expression.kind) {
      case "number":
        return this.number(expression.value);
      case "symbol": {
        const node = symbols.get(expression.name) ?? (expression.name === "pi" ? this.number(Math.PI) : undefined);
        if (node === undefined) throw new Error(`Symbol "${expression.name}" has no value; expected one of ${[...symbols.keys()].join(", ")}.`);
        return node;
      }
      case "unary": {
        const operand = this.add(expression.operand, symbols);
        return expression.operator === "!" ? this.not(this.condition(operand)) : this.#arithmetic("negative", [operand]);
      }
      case "binary":
        return this.#binary(expression.operator, this.add(expression.left, symbols), this.add(expression.right, symbols), expression.right);
      case "call":
        return this.#call(expression.name, expression.args.map((argument) => this.add(argument, symbols)));
    }
  }

  number(value: number): number {
    return this.#node("number", [], value);
  }

  column(k: number): number {
    return this.#node("column", [], k);
  }

  not(condition: number): number {
    const constant = this.#constant(condition);
    return constant === null ? this.#node("not", [condition], 0, true) : this.#always(!holds(constant));
  }

  /** A node as a condition: a number holds when it is neither zero nor NaN. */
  condition(node: number): number {
    const { condition, operation, of, value } = this.#at(node);
    if (condition) return node;
    if (operation === "count") return of[0] as number;
    return operation === "number" ? this.#always(holds(value)) : this.#node("holds", [node], 0, true);
  }

  /** A node as a number: a condition counts 1 or 0. */
  numeric(node: number): number {
    const { condition, operation, value } = this.#at(node);
    if (!condition) return node;
    return operation === "number" ? this.number(value) : this.#node("count", [node]);
  }

  #binary(operator: BinaryOperator, left: number, right: number, exponent: Expression): number {
    if (operator === "&&" || operator === "||") return this.#both(operator, this.condition(left), this.condition(right));
    if (operator === "^") return this.#power(left, right, exponent);
    if ("+-*/".includes(operator)) return this.#arithmetic(operator as "+" | "-" | "*" | "/", [left, right]);
    const of = [this.numeric(left), this.numeric(right)];
    const constants = of.map((node) => this.#constant(node));
    const [a, b] = constants;
    if (typeof a === "number" && typeof b === "number") return this.#always(holds(computed(operator, a, b)));
    return this.#node(operator, of, 0, true);
  }

  #both(operator: "&&" | "||", left: number, right: number): number {
    const decides = operator === "||";
    for (const [one, other] of [[left, right], [right, left]] as const) {
      const constant = this.#constant(one);
      if (constant !== null) return holds(constant) === decides ? this.#always(decides) : other;
    }
    return left === right ? left : this.#node(operator, [left, right], 0, true);
  }

  /** The written powers that every other form of a formula takes as products and roots are taken so here. */
  #power(base: number, exponent: number, written: Expression): number {
    const value = written.kind === "number" && written.computed !== true ? written.value : NaN;
    const root = (): number => this.#arithmetic("sqrt", [base]);
    const square = (): number => this.#arithmetic("*", [base, base]);
    if (value === 2) return square();
    if (value === 3) return this.#arithmetic("*", [square(), base]);
    if (value === 1.5) return this.#arithmetic("*", [base, root()]);
    if (value === 0.5) return root();
    return this.#node("power", [this.numeric(base), this.numeric(exponent)]);
  }

  #call(name: FunctionName, args: readonly number[]): number {
    if (name === "if") return this.#choice(this.condition(args[0] as number), args[1] as number, args[2] as number);
    const of = args.map((node) => this.numeric(node));
    if (name === "min" || name === "max") return of.reduce((left, right) => this.#node(name, [left, right]));
    return name === "sqrt" || name === "abs" ? this.#arithmetic(name, of) : this.#node(name, of);
  }

  #choice(condition: number, yes: number, no: number): number {
    const constant = this.#constant(condition);
    if (constant !== null) return holds(constant) ? yes : no;
    if (yes === no) return yes;
    if (this.#at(yes).condition && this.#at(no).condition) return this.#node("if", [condition, yes, no], 0, true);
    const [first, second] = [this.numeric(yes), this.numeric(no)];
    if (this.#isNaN(first)) return this.#blank(condition, second);
    return this.#isNaN(second) ? this.#blank(this.not(condition), first) : this.#node("if", [condition, first, second]);
  }

  /** Operations that give NaN for NaN: what blanks an operand blanks the result. */
  #arithmetic(operation: "+" | "-" | "*" | "/" | "negative" | "sqrt" | "abs", operands: readonly number[]): number {
    const of = operands.map((node) => this.numeric(node));
    const blanked = of.findIndex((node) => this.#at(node).operation === "blank");
    if (blanked >= 0) {
      const [condition, value] = this.#at(of[blanked] as number).of as [number, number];
      return this.#blank(condition, this.#arithmetic(operation, of.map((node, k) => (k === blanked ? value : node))));
    }
    const [a, b] = of as [number, number];
    if (of.length === 2) {
      const [first, second] = [this.#constant(a), this.#constant(b)];
      if (first !== null && second !== null) return this.number(computed(operation as BinaryOperator, first, second));
      if (operation === "*" && (first === 1 || second === 1)) return first === 1 ? b : a;
      if (operation === "/" && second === 1) return a;
      if (operation === "+" && first !== null && first !== 0 && this.#isZeroOver(b)) return this.#blank(this.not(this.condition(this.#at(b).of[1] as number)), a);
    }
    return this.#node(operation, of);
  }

  #isZeroOver(node: number): boolean {
    const { operation, of } = this.#at(node);
    return operation === "/" && this.#constant(of[0] as number) === 0;
  }

  /** NaN where the condition holds, else the value. */
  #blank(condition: number, value: number): number {
    const constant = this.#constant(condition);
    if (constant !== null) return holds(constant) ? this.number(NaN) : value;
    const inner = this.#at(value);
    if (inner.operation !== "blank") return this.#node("blank", [condition, value]);
    return this.#node("blank", [this.#both("||", inner.of[0] as number, condition), inner.of[1] as number]);
  }

  #always(value: boolean): number {
    return this.#node("number", [], Number(value), true);
  }

  #constant(node: number): number | null {
    const { operation, value } = this.#at(node);
    return operation === "number" ? value : null;
  }

  #isNaN(node: number): boolean {
    return Number.isNaN(this.#constant(node) ?? 0);
  }

  #at(node: number): GraphNode {
    return this.nodes[node] as GraphNode;
  }

  #node(operation: GraphOperation, of: readonly number[], value = 0, condition = false): number {
    const key = `${operation} ${condition ? "?" : ""}${Object.is(value, -0) ? "-0" : value} ${of.join(" ")}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    this.#known.set(key, this.nodes.length);
    return this.nodes.push({ operation, of, value, condition }) - 1;
  }
}

function computed(operator: BinaryOperator, left: number, right: number): number {
  return evaluate({ kind: "binary", operator, left: { kind: "number", value: left }, right: { kind: "number", value: right } }, () => NaN);
}
