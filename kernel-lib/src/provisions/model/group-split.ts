import { evaluate, parseFormula, type Expression } from "../../formula";
import { MISSING } from "./loop-plan";
import { capacityAt, type RowEvaluator, positionOf, type Arguments } from "./evaluate-row";
import type { ProvisionDefinition } from "./definition";

/** One part of a group whose bars act together. */
export interface GroupPart {
  readonly args: Arguments;
  readonly label: string;
}

/**
 * Takes a rectangle of bars apart where the spacing exceeds the critical one, since bars farther
 * apart do not act together (ACI 318-19 17.5.1.3.1). Parts keep their true distances to the edges.
 * Returns one part, the whole, when all bars act together.
 */
export function actingTogether(
  provision: ProvisionDefinition,
  evaluator: RowEvaluator,
  args: Arguments,
): readonly GroupPart[] {
  const { split } = provision;
  if (!split) return takenApart(evaluator, args, { x: false, y: false });
  const value = (name: string): number =>
    args[evaluator.reads.findIndex((read) => read.name === name)] ??
    (name.startsWith("n_") ? 1 : 0);
  const values = new Float64Array(evaluator.symbols.length + 1);
  evaluator.evaluate(args, values, false);
  const critical = (symbol: string | undefined): number =>
    symbol === undefined ? Infinity : (values[positionOf(evaluator, symbol)] ?? Infinity);
  const apart = {
    x: value("n_x") > 1 && value("s_x") > critical(split.x),
    y: value("n_y") > 1 && value("s_y") > critical(split.y),
  };
  return takenApart(evaluator, args, apart);
}

/**
 * How the symbols of a part follow those of the group: `apart_x` and `apart_y` say whether its rows
 * across and along act by themselves, `row_x` and `row_y` which of them this is, from 0. All other
 * symbols are those of the group.
 */
export const PART_OF_GROUP: Readonly<Record<string, Expression>> = {
  ...partAlong("x", "c_1", "c_3"),
  ...partAlong("y", "c_2", "c_4"),
};

function partAlong(side: "x" | "y", before: string, after: string): Record<string, Expression> {
  return {
    [`n_${side}`]: parseFormula(`if(apart_${side}, 1, n_${side})`),
    [`s_${side}`]: parseFormula(`if(apart_${side}, 0, s_${side})`),
    [before]: parseFormula(`if(apart_${side}, ${before} + row_${side} * s_${side}, ${before})`),
    [after]: parseFormula(
      `if(apart_${side}, ${after} + (n_${side} - 1 - row_${side}) * s_${side}, ${after})`,
    ),
  };
}

/**
 * The parts of a group whose bars are apart across (x), along (y) or neither; their distances
 * follow those of the group linearly.
 */
export function takenApart(
  evaluator: RowEvaluator,
  args: Arguments,
  apart: { readonly x: boolean; readonly y: boolean },
): readonly GroupPart[] {
  if (!apart.x && !apart.y) return [{ args, label: "" }];
  const value = (name: string): number =>
    args[evaluator.reads.findIndex((read) => read.name === name)] ??
    (name.startsWith("n_") ? 1 : 0);
  const rows = (side: "x" | "y"): number[] =>
    apart[side] ? Array.from({ length: value(`n_${side}`) }, (_, k) => k) : [0];
  return rows("x").flatMap((x) =>
    rows("y").map((y): GroupPart => {
      const place: Readonly<Record<string, number>> = {
        apart_x: Number(apart.x),
        apart_y: Number(apart.y),
        row_x: x,
        row_y: y,
      };
      return {
        args: evaluator.reads.map(({ name }, k) =>
          PART_OF_GROUP[name]
            ? evaluate(PART_OF_GROUP[name], (symbol) => place[symbol] ?? value(symbol))
            : (args[k] ?? NaN),
        ),
        label: [apart.x ? `row ${x + 1} across` : "", apart.y ? `row ${y + 1} along` : ""]
          .filter(Boolean)
          .join(", "),
      };
    }),
  );
}

/** Capacity (edition units) and flags of a row whose group may have to be taken apart. */
export function groupCapacity(
  provision: ProvisionDefinition,
  evaluator: RowEvaluator,
  args: Arguments,
  design: boolean,
): { capacity: number; flags: number } {
  const values = new Float64Array(evaluator.symbols.length + 1);
  let capacity = 0;
  const parts = actingTogether(provision, evaluator, args).map((part) => {
    const flags = evaluator.evaluate(part.args, values, design);
    capacity += capacityAt(evaluator, provision, values, design);
    return flags;
  });
  const flags = flagsTogether(provision, parts);
  return { capacity: (flags & withholdingBits(provision)) !== 0 ? NaN : capacity, flags };
}

/**
 * The flags of a group from those of its parts: what fails anywhere fails, but a check is spared
 * only where every part is.
 */
export function flagsTogether(provision: ProvisionDefinition, parts: readonly number[]): number {
  const sparing = sparingBits(provision);
  const [any, all] = [parts.reduce((a, b) => a | b, 0), parts.reduce((a, b) => a & b, -1)];
  return (any & ~sparing) | (all & sparing);
}

/** The flag bits of limits that spare what need not be checked. */
export function sparingBits({ limits }: ProvisionDefinition): number {
  return limits.reduce((bits, { spares }, k) => (spares ? bits | (1 << k) : bits), 0);
}

/**
 * The flag bits that withhold the capacity: missing inputs and the limits that say "not
 * applicable".
 */
export function withholdingBits(provision: ProvisionDefinition): number {
  return provision.limits.reduce(
    (bits, limit, k) => (limit.effect === "not_applicable" ? bits | (1 << k) : bits),
    MISSING,
  );
}
