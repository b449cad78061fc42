import {
  operands,
  parseFormula,
  replaceSymbols,
  symbolsOf,
  toText,
  type BinaryOperator,
  type Expression,
} from "../../formula";
import { INPUTS, isInput, type InputDefinition, type InputName } from "../inputs/catalogue";
import type { CodeDefinition, Limit, ProvisionDefinition } from "./definition";
import { statementOf } from "./yes-or-no";

/**
 * A limit of applicability as bounds on one column, or on the ratio of two, in the columns' own
 * units.
 */
export interface LimitRange {
  readonly clause: string;
  /**
   * The input that the formulas read: a cylinder's strength, the strength of the level, where a
   * column has several meanings.
   */
  readonly symbol: InputName;
  readonly column: string;
  /** The column it is divided by, as an embedment by the diameter; absent for bounds in a unit. */
  readonly per?: string;
  readonly lower: number;
  readonly upper: number;
  /** mm, MPa, and so on; empty for a ratio. */
  readonly unit: string;
  readonly effect: Limit["effect"];
  /**
   * The condition, in the formula language's words, under which the limit does not concern a row.
   */
  readonly unless?: string;
}

interface Bound {
  readonly symbol: InputName;
  readonly column: string;
  readonly per?: string;
  readonly lower: number;
  readonly upper: number;
  readonly unit: string;
}

const UNIT: Readonly<Record<string, string>> = {
  length: "mm",
  area: "mm2",
  stress: "MPa",
  force: "N",
  modulus: "MPa",
  number: "",
};
const MIRRORED: Readonly<Record<string, BinaryOperator>> = {
  "<=": ">=",
  "<": ">",
  ">=": "<=",
  ">": "<",
};
/** The distance that stands for a remote edge is no bound. */
const REMOTE = 1e6;

/**
 * The limits of a provision that bound one column, or the ratio of two, read from the formulas that
 * judge the rows: there is no second copy that could differ. A limit of another form (words,
 * options, a step of the calculation) gives none.
 * @returns one range for each limit and column, in mm, MPa and so on, whatever the edition's units
 * @example
 * limitRanges(aci318, provision) // [{ clause: "17.3.3", column: "embedment_mm", per: "bar_diameter_mm", lower: 4, upper: 20, ... }]
 */
export function limitRanges(
  code: CodeDefinition,
  provision: Pick<ProvisionDefinition, "limits" | "steps">,
): LimitRange[] {
  return provision.limits.flatMap((limit) => rangesOf(code, provision, limit));
}

/** The ranges of one limit. */
export function rangesOf(
  code: CodeDefinition,
  { steps }: Pick<ProvisionDefinition, "steps">,
  limit: Limit,
): LimitRange[] {
  const formulas = new Map(steps.map(({ symbol, formula }) => [symbol, formula]));
  const written = (name: string): Expression => {
    const formula = formulas.get(name);
    return formula === undefined
      ? { kind: "symbol", name }
      : replaceSymbols(parseFormula(formula), written);
  };
  const whole = replaceSymbols(parseFormula(limit.holds), written);
  const { concerned, unless } = withoutExemption(whole, code);
  const bounds = conjuncts(concerned).map((one) => boundsOf(one, code));
  const merged = new Map<string, Bound>();
  for (const bound of bounds.flatMap((found) => found ?? [])) {
    const key = `${bound.column} ${bound.per ?? ""}`;
    const known = merged.get(key);
    merged.set(
      key,
      known === undefined
        ? bound
        : {
            ...known,
            lower: Math.max(known.lower, bound.lower),
            upper: Math.min(known.upper, bound.upper),
          },
    );
  }
  return [...merged.values()].map((bound) => ({
    clause: limit.clause,
    ...bound,
    effect: limit.effect,
    ...(unless === null ? {} : { unless: toText(unless) }),
  }));
}

/**
 * "a || b" where one side is a statement of words or options: the other side, and that statement.
 */
function withoutExemption(
  expression: Expression,
  code: CodeDefinition,
): { concerned: Expression; unless: Expression | null } {
  if (expression.kind !== "binary" || expression.operator !== "||")
    return { concerned: expression, unless: null };
  const { left, right } = expression;
  const states = (e: Expression): boolean =>
    [...symbolsOf(e)].every(
      (name) =>
        Object.hasOwn(code.options, name) ||
        (isInput(name) && statementOf(INPUTS[name].meaning) !== null),
    );
  if (states(left)) return { concerned: right, unless: left };
  return states(right)
    ? { concerned: left, unless: right }
    : { concerned: expression, unless: null };
}

function conjuncts(expression: Expression): Expression[] {
  return expression.kind === "binary" && expression.operator === "&&"
    ? operands(expression).flatMap(conjuncts)
    : [expression];
}

/** The bounds that a comparison puts on a column; null where it is of another form. */
function boundsOf(expression: Expression, code: CodeDefinition): Bound[] | null {
  if (expression.kind !== "binary" || MIRRORED[expression.operator] === undefined) return null;
  const { left, right, operator } = expression;
  return against(left, operator, right, code) ?? against(right, MIRRORED[operator]!, left, code);
}

function against(
  subject: Expression,
  operator: BinaryOperator,
  limit: Expression,
  code: CodeDefinition,
): Bound[] | null {
  const from = operator === ">=" || operator === ">";
  // At least the greatest of several is at least each of them; at most the least likewise.
  if (limit.kind === "call" && limit.name === (from ? "max" : "min")) {
    const each = limit.args.map((one) => against(subject, operator, one, code));
    return each.some((found) => found === null) ? null : each.flatMap((found) => found ?? []);
  }
  if (subject.kind === "binary" && subject.operator === "/" && limit.kind === "number") {
    const [above, below] = [columnOf(subject.left, code), columnOf(subject.right, code)];
    return above === null || below === null
      ? null
      : [bounded(above, limit.value, from, "", below.column)];
  }
  const column = columnOf(subject, code);
  if (column === null) return null;
  if (limit.kind === "number")
    return limit.value >= REMOTE
      ? null
      : [bounded(column, limit.value * column.size, from, column.unit)];
  const [times, per] =
    limit.kind === "binary" && limit.operator === "*" && limit.left.kind === "number"
      ? [limit.left.value, limit.right]
      : [1, limit];
  const other = columnOf(per, code);
  return other === null ? null : [bounded(column, times, from, "", other.column)];
}

function bounded(
  { symbol, column }: Subject,
  value: number,
  from: boolean,
  unit: string,
  per?: string,
): Bound {
  return {
    symbol,
    column,
    ...(per === undefined ? {} : { per }),
    lower: from ? value : -Infinity,
    upper: from ? Infinity : value,
    unit,
  };
}

interface Subject {
  readonly symbol: InputName;
  readonly column: string;
  readonly unit: string;
  /** Of the edition's unit in that of the column. */
  readonly size: number;
}

/**
 * The column of numbers that a symbol stands for, with the size of the edition's unit in that of
 * the column.
 */
function columnOf(expression: Expression, code: CodeDefinition): Subject | null {
  if (
    expression.kind !== "symbol" ||
    !isInput(expression.name) ||
    Object.hasOwn(code.options, expression.name)
  )
    return null;
  const { column, meaning, quantity }: InputDefinition = INPUTS[expression.name];
  return column === undefined || statementOf(meaning) !== null || quantity === "modulus"
    ? null
    : {
        symbol: expression.name,
        column,
        unit: UNIT[quantity] ?? "",
        size: code.system.inSi[quantity],
      };
}
