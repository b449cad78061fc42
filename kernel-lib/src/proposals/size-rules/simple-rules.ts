import { roundToSafeSide } from "../rounding";
import type { FactorAlong } from "./factor-along-variable";
import { lineBelow } from "./line-below";

/** A rule that a code could print, with what its simplicity costs. */
export interface SimpleRule {
  readonly kind: "constant" | "two-step" | "linear" | "power";
  /** The factor as a formula of the symbol, ready for a proposal. */
  readonly formula: string;
  /** Numbers that the rule prints. */
  readonly constants: number;
  readonly at: (x: number) => number;
  /** Mean over the tests of 1 − rule/required: the capacity given away by simplicity. */
  readonly meanCost: number;
  /** The largest such loss over the tests, and the variable there. */
  readonly largestCost: number;
  readonly largestCostAt: number;
  readonly reading: string;
}

/**
 * Simple rules that nowhere exceed the required factor over the tested range, rounded to the safe
 * side and never above 1: the best constant, two steps, straight line and power, cheapest first.
 * Empty where nothing was derived.
 * @param symbol symbol of the variable in the formula; it must be in the unit that the code writes
 *   it in
 * @throws RangeError for a rounding step that is not above zero
 * @example simpleRules(factorAlongVariable({ ratios, x }), "d_a")
 */
export function simpleRules(along: FactorAlong, symbol: string, step: number = 0.05): SimpleRule[] {
  if (along.status === "not derived") return [];
  return [
    constant(along, step),
    twoStep(along, symbol, step),
    linear(along, symbol),
    power(along, symbol),
  ]
    .flatMap((rule) => (rule === null ? [] : [costed(along, rule)]))
    .sort((a, b) => a.meanCost - b.meanCost);
}

type Bare = Pick<SimpleRule, "kind" | "formula" | "constants" | "at">;

function constant({ required }: FactorAlong, step: number): Bare {
  const value = roundToSafeSide(Math.min(...required), step);
  return { kind: "constant", formula: String(value), constants: 1, at: () => value };
}

/** The break is at a tested value; the first step holds up to and with it. */
function twoStep(along: FactorAlong, symbol: string, step: number): Bare | null {
  const breaks = [...new Set(along.tested)].sort((a, b) => a - b).slice(0, -1);
  const least = (holds: (x: number) => boolean): number =>
    roundToSafeSide(
      along.required.reduce(
        (low, value, k) => (holds(along.x[k] ?? NaN) ? Math.min(low, value) : low),
        Infinity,
      ),
      step,
    );
  let best: Bare | null = null;
  let cost = Infinity;
  for (const limit of breaks) {
    // The grid need not hold the break itself: the grid point above it bounds the first step too.
    const next = along.x.find((x) => x >= limit) ?? limit;
    const previous = [...along.x].reverse().find((x) => x <= limit) ?? limit;
    const [first, second] = [least((x) => x <= next), least((x) => x >= previous)];
    const rule: Bare = {
      kind: "two-step",
      formula: `if(${symbol} <= ${limit}, ${first}, ${second})`,
      constants: 3,
      at: (x) => (x <= limit ? first : second),
    };
    const loss = costed(along, rule).meanCost;
    if (loss < cost) [best, cost] = [rule, loss];
  }
  return best;
}

function linear(along: FactorAlong, symbol: string): Bare {
  const centre = along.tested.reduce((sum, x) => sum + x, 0) / along.tested.length;
  const slope = Number(lineBelow(along.x, along.required, centre).slope.toPrecision(2));
  const intercept = roundToSafeSide(
    Math.min(...along.required.map((value, k) => value - slope * (along.x[k] ?? NaN))),
    0.01,
  );
  return {
    kind: "linear",
    formula: `min(1, ${intercept} ${slope < 0 ? "-" : "+"} ${Math.abs(slope)} * ${symbol})`,
    constants: 2,
    at: (x) => Math.min(1, intercept + slope * x),
  };
}

/**
 * The reference value is the least tested one, so the coefficient is the factor of the smallest
 * size.
 */
function power(along: FactorAlong, symbol: string): Bare {
  const reference = along.x[0] ?? 1;
  const logs = along.x.map((x) => Math.log(x / reference));
  const centre =
    along.tested.reduce((sum, x) => sum + Math.log(x / reference), 0) / along.tested.length;
  const exponent =
    Math.round(100 * lineBelow(logs, along.required.map(Math.log), centre).slope) / 100;
  const coefficient = roundToSafeSide(
    Math.min(...along.required.map((value, k) => value / Math.exp(exponent * (logs[k] ?? NaN)))),
    0.01,
  );
  return {
    kind: "power",
    formula: `min(1, ${coefficient} * (${symbol} / ${reference})^(${exponent}))`,
    constants: 3,
    at: (x) => Math.min(1, coefficient * (x / reference) ** exponent),
  };
}

function costed(along: FactorAlong, rule: Bare): SimpleRule {
  const position = (x: number): number =>
    along.x.reduce(
      (best, value, k) => (Math.abs(value - x) < Math.abs((along.x[best] ?? NaN) - x) ? k : best),
      0,
    );
  const bySize = new Map(
    [...new Set(along.tested)].map(
      (x) => [x, 1 - rule.at(x) / (along.required[position(x)] ?? NaN)] as const,
    ),
  );
  const meanCost =
    along.tested.reduce((sum, x) => sum + (bySize.get(x) ?? NaN), 0) / along.tested.length;
  const [largestCostAt, largestCost] = [...bySize].reduce((a, b) => (b[1] > a[1] ? b : a));
  return {
    ...rule,
    meanCost,
    largestCost,
    largestCostAt,
    reading: `${rule.kind}: ${rule.formula} gives away ${(100 * meanCost).toFixed(1)} % of the permitted capacity on average, ${(100 * largestCost).toFixed(1)} % at ${largestCostAt}.`,
  };
}
