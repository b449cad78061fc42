import { evaluate, holds, operands, symbolsOf, type Expression } from "../../formula";
import { stepsOf } from "../model/provision-symbols";
import type { Trace, TracePart } from "../model/trace";
import { statementOf } from "../model/yes-or-no";

/** What one row uses of a provision: the rest concerns other rows. */
export interface UsedLines {
  readonly symbols: ReadonlySet<string>;
  /** Options at their defaults that decided between cases and stand in no formula. */
  readonly defaults: ReadonlySet<string>;
  /** Whether a symbol is a yes or no, or an option: no measured quantity. */
  readonly isSetting: (name: string) => boolean;
}

type Value = (name: string) => number;

/**
 * The symbols that the calculation of one part uses: what its result rests on in the cases that the
 * row takes, the limits that say something of it, the spacing at which a group comes apart, and a
 * second interpretation printed beside the first.
 */
export function usedLines(
  trace: Trace,
  part: TracePart,
  value: Value,
  limits: readonly Expression[],
): UsedLines {
  const { code } = trace;
  const meanings = new Map(
    [...part.inputs, ...part.steps].map(({ symbol, meaning }) => [symbol, meaning]),
  );
  const formulas = new Map(
    part.steps.flatMap(({ symbol, expression }) =>
      expression ? [[symbol, expression] as const] : [],
    ),
  );
  const option = (name: string): boolean => Object.hasOwn(code.options, name);
  const isSetting = (name: string): boolean =>
    option(name) || statementOf(meanings.get(name) ?? "") !== null;
  const atDefault = (name: string): boolean =>
    option(name) &&
    Object.is(
      value(name),
      (code.options[name]?.value ?? NaN) /
        code.system.inSi[code.options[name]?.quantity ?? "number"],
    );
  const [inFormulas, inConditions] = [new Set<string>(), new Set<string>()];
  const visit = (expression: Expression, into: Set<string>): void =>
    visitTaken(expression, value, (name, deciding) => {
      const set = deciding ? inConditions : into;
      if (set.has(name)) return;
      set.add(name);
      const formula = formulas.get(name);
      if (formula) visit(formula, set);
    });
  for (const root of rootsOf(trace, part)) visit({ kind: "symbol", name: root }, inFormulas);
  for (const limit of limits) visit(limit, inFormulas);
  // A decision that rests on settings alone is a property of the case, not a step of its
  // calculation.
  const restsOnQuantity = (name: string): boolean => {
    const formula = formulas.get(name);
    if (!formula) return !isSetting(name);
    const read = new Set<string>();
    visitTaken(formula, value, (symbol) => read.add(symbol));
    return [...read].some(restsOnQuantity);
  };
  const decided = [...inConditions].filter((name) => !inFormulas.has(name));
  const kept = decided.filter((name) =>
    formulas.has(name) ? restsOnQuantity(name) : !atDefault(name),
  );
  const defaults = new Set(decided.filter((name) => !formulas.has(name) && atDefault(name)));
  return { symbols: new Set([...inFormulas, ...kept]), defaults, isSetting };
}

/** The symbols where the calculation ends, and those that are printed beside it. */
function rootsOf({ provision, parts }: Trace, part: TracePart): string[] {
  const number = (name: string): number =>
    part.inputs.find(({ symbol }) => symbol === name)?.value ?? 1;
  const group = number("n_x") * number("n_y") > 1 || parts.length > 1;
  const beside = stepsOf(provision).filter(
    ({ symbol, concerns }) =>
      concerns !== undefined &&
      part.steps.some((line) => line.symbol === symbol && !line.unprinted),
  );
  const last = part.steps.at(-1)?.symbol;
  return [
    provision.capacity,
    ...(last === undefined ? [] : [last]),
    ...beside.map(({ symbol }) => symbol),
    ...(group ? Object.values(provision.split ?? {}) : []),
  ];
}

/**
 * Every symbol that is read on the way the row takes; `deciding` where it only chooses between
 * cases.
 */
function visitTaken(
  expression: Expression,
  value: Value,
  read: (name: string, deciding: boolean) => void,
  deciding = false,
): void {
  const onward = (e: Expression): void => visitTaken(e, value, read, deciding);
  if (expression.kind === "symbol") return read(expression.name, deciding);
  if (expression.kind === "call" && expression.name === "if") {
    const [condition, yes, no] = expression.args;
    if (!condition || !yes || !no) return;
    visitTaken(condition, value, read, true);
    const truth = truthOf(condition, value);
    if (truth !== false) onward(yes);
    if (truth !== true) onward(no);
    return;
  }
  if (
    expression.kind === "binary" &&
    (expression.operator === "&&" || expression.operator === "||")
  ) {
    const enough = expression.operator === "||";
    const first = [expression.left, expression.right].find((e) => truthOf(e, value) === enough);
    return first ? onward(first) : operands(expression).forEach(onward);
  }
  operands(expression).forEach(onward);
}

/** Whether a condition holds; null where a value is missing. */
function truthOf(condition: Expression, value: Value): boolean | null {
  return [...symbolsOf(condition)].some((name) => Number.isNaN(value(name)))
    ? null
    : holds(evaluate(condition, value));
}

const NEGATED = { "<": ">=", "<=": ">", ">": "<=", ">=": "<", "==": "!=", "!=": "==" } as const;

/**
 * Why a condition holds or fails in this row, as comparisons of quantities: of a choice the part
 * that decides, of yes and no nothing, since those are known.
 * @param isSetting whether a symbol is a yes or no or an option
 * @example
 * const isSetting = (name: string) => name === "cracked";
 * const shown = decisive(parseFormula("cracked == 1 || c < d"), false, () => 0, isSetting);
 * shown.map((one) => toText(one)) // ["c ≥ d"]
 */
export function decisive(
  condition: Expression,
  truth: boolean,
  value: Value,
  isSetting: (name: string) => boolean,
): Expression[] {
  const onward = (e: Expression, wanted = truth): Expression[] =>
    decisive(e, wanted, value, isSetting);
  if (condition.kind === "unary" && condition.operator === "!")
    return onward(condition.operand, !truth);
  if (condition.kind !== "binary") return [];
  const { operator, left, right } = condition;
  if (operator === "&&" || operator === "||") {
    const all = (operator === "&&") === truth;
    if (all) return [...onward(left), ...onward(right)];
    const first = [left, right].find((e) => truthOf(e, value) === truth);
    return first ? onward(first) : [];
  }
  if (!(operator in NEGATED) || [...symbolsOf(condition)].every(isSetting)) return [];
  return [
    truth ? condition : { ...condition, operator: NEGATED[operator as keyof typeof NEGATED] },
  ];
}

/** The comparisons that decided which cases of a formula the row takes, from the outside in. */
export function decisionsIn(
  expression: Expression,
  value: Value,
  isSetting: (name: string) => boolean,
): Expression[] {
  if (expression.kind === "call" && expression.name === "if") {
    const [condition, yes, no] = expression.args;
    const truth = condition ? truthOf(condition, value) : null;
    if (!condition || !yes || !no || truth === null) return [];
    return [
      ...decisive(condition, truth, value, isSetting),
      ...decisionsIn(truth ? yes : no, value, isSetting),
    ];
  }
  return operands(expression).flatMap((e) => decisionsIn(e, value, isSetting));
}
