import jsep from "jsep";

/** A cell of a row: a number, a word, or null where it is blank. */
export type RowCell = string | number | null;

type Value = RowCell | boolean;
type Reader = (column: string) => RowCell;
type Part = (read: Reader) => Value;

/** A condition on the columns of a row, parsed once. */
export interface RowCondition {
  /** The columns that it reads, in order of appearance. */
  readonly columns: readonly string[];
  /** Each column that is compared with a written value, so that a reader of data can check it. */
  readonly compared: readonly { readonly column: string; readonly value: string | number }[];
  /** @throws RangeError where a cell is of another kind than the value it is compared with */
  holds(read: Reader): boolean;
}

const ARITHMETIC: Readonly<Record<string, (a: number, b: number) => number>> = {
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => a / b,
};
const ORDER: Readonly<Record<string, (a: number, b: number) => boolean>> = {
  "<": (a, b) => a < b,
  "<=": (a, b) => a <= b,
  ">": (a, b) => a > b,
  ">=": (a, b) => a >= b,
};

/**
 * Parses a condition on rows such as `"embedment_mm >= 100 && bar_material == 'gfrp'"`.
 *
 * Columns by name, a column of one's own as `extra.name`; numbers in the unit of the column; words
 * in quotes; `blank` for an empty cell; + - * /, < <= > >= == != and && || ! with brackets. Nothing
 * of the text is ever run as code. A blank cell has no order and no sum: a comparison of size with
 * it does not hold; `!=` another value does.
 *
 * @throws Error naming the condition and the part that is not of the language
 * @example parseRowCondition("edge_1_mm < 3 * embedment_mm").columns // ["edge_1_mm", "embedment_mm"]
 */
export function parseRowCondition(text: string): RowCondition {
  const refuse = (what: string): never => {
    throw new Error(
      `Condition "${text}" ${what}; expected columns, numbers, words in quotes and comparisons, such as "embedment_mm >= 100 && bar_material == 'gfrp'".`,
    );
  };
  let tree: jsep.Expression;
  try {
    tree = jsep(text);
  } catch (error) {
    return refuse(`cannot be read: ${(error as Error).message}`);
  }
  const columns = new Set<string>();
  const compared: { column: string; value: string | number }[] = [];

  const numbers =
    (sign: string, parts: readonly Part[]): ((read: Reader) => number[] | null) =>
    (read) => {
      const values = parts.map((part) => part(read));
      if (values.some((value) => value === null)) return null;
      for (const value of values)
        if (typeof value !== "number")
          throw new RangeError(
            `Condition "${text}": ${JSON.stringify(value)} is no number, and "${sign}" needs numbers on both sides.`,
          );
      return values as number[];
    };

  const binary = ({ operator, left, right }: jsep.BinaryExpression): Part => {
    const [a, b] = [convert(left), convert(right)];
    if (operator === "&&" || operator === "||") {
      const [first, second] = [
        truth(`beside ${operator}`, left, a),
        truth(`beside ${operator}`, right, b),
      ];
      return operator === "&&"
        ? (read) => first(read) && second(read)
        : (read) => first(read) || second(read);
    }
    const order = ORDER[operator];
    const sum = ARITHMETIC[operator];
    if (order === undefined && sum === undefined && operator !== "==" && operator !== "!=")
      return refuse(`holds the operator "${operator}"`);
    if (sum === undefined) note(left, right);
    const both = numbers(operator, [a, b]);
    if (sum !== undefined)
      return (read) => {
        const values = both(read);
        return values === null ? null : sum(values[0]!, values[1]!);
      };
    if (order !== undefined)
      return (read) => {
        const values = both(read);
        return values !== null && order(values[0]!, values[1]!);
      };
    return operator === "==" ? (read) => a(read) === b(read) : (read) => a(read) !== b(read);
  };

  /** Takes down a comparison of a column with a written value. */
  const note = (left: jsep.Expression, right: jsep.Expression): void => {
    for (const [name, value] of [
      [columnOf(left), right],
      [columnOf(right), left],
    ] as const)
      if (name !== null && value.type === "Literal")
        compared.push({ column: name, value: (value as jsep.Literal).value as string | number });
  };

  const truth = (place: string, node: jsep.Expression, part: Part): ((read: Reader) => boolean) =>
    isComparison(node) ? (read) => part(read) === true : refuse(`${place} is no comparison`);

  const convert = (node: jsep.Expression): Part => {
    const column = columnOf(node);
    if (column === "blank") return () => null;
    if (column !== null) {
      columns.add(column);
      return (read) => read(column);
    }
    if (node.type === "Literal") {
      const { value } = node as jsep.Literal;
      return typeof value === "number" || typeof value === "string"
        ? () => value
        : refuse(`holds ${String(value)}`);
    }
    if (node.type === "UnaryExpression") {
      const { operator, argument } = node as jsep.UnaryExpression;
      const operand = convert(argument);
      if (operator === "!") {
        const holds = truth("after !", argument, operand);
        return (read) => !holds(read);
      }
      if (operator !== "-") return refuse(`holds the operator "${operator}"`);
      const value = numbers("-", [operand]);
      return (read) => {
        const found = value(read);
        return found === null ? null : -found[0]!;
      };
    }
    if (node.type === "BinaryExpression") return binary(node as jsep.BinaryExpression);
    return refuse(`holds a part of kind ${node.type}`);
  };

  const holds = truth("as a whole", tree, convert(tree));
  return { columns: [...columns], compared, holds };
}

function isComparison(node: jsep.Expression): boolean {
  return node.type === "UnaryExpression"
    ? (node as jsep.UnaryExpression).operator === "!"
    : node.type === "BinaryExpression" && !((node as jsep.BinaryExpression).operator in ARITHMETIC);
}

/** The column that a part names; `extra.name` for a column of one's own. */
function columnOf(node: jsep.Expression): string | null {
  if (node.type === "Identifier") return (node as jsep.Identifier).name;
  if (node.type !== "MemberExpression") return null;
  const { object, property, computed } = node as jsep.MemberExpression;
  return !computed && object.type === "Identifier" && property.type === "Identifier"
    ? `${(object as jsep.Identifier).name}.${(property as jsep.Identifier).name}`
    : null;
}
