import { parseFormula, rateOf, rateOfPower, type Rate } from "../../formula";
import { stepsOf } from "../model/provision-symbols";
import type { ProvisionDefinition } from "../model/definition";
import { type Arguments, positionOf, rowEvaluator, type RowEvaluator } from "../model/evaluate-row";
import type { CodeDefinition } from "../model/definition";
import { takenApart } from "../model/group-split";

/**
 * A capacity (edition's force unit) with its elasticity by one variable, and the branches its
 * formulas take.
 */
export interface CapacityRate {
  readonly capacity: number;
  readonly elasticity: number;
  /** One text a step; two that are equal lie on one smooth piece. */
  readonly branches: readonly {
    readonly symbol: string;
    readonly clause: string;
    readonly taken: string;
  }[];
}

/**
 * The capacity of one provision for one row as the hand calculation finds it, with its exact
 * elasticity.
 */
export function capacityRate(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  args: Arguments,
  powers: ReadonlyMap<string, number>,
  design: boolean,
): CapacityRate {
  const evaluator = rowEvaluator(code, provision);
  const rates = evaluator.reads.map(({ name }, k) =>
    rateOfPower(args[k] ?? NaN, powers.get(name) ?? 0),
  );
  const whole = walk(provision, evaluator, rates, design);
  const apart = actsApart(provision, evaluator, whole.rates);
  if (!apart.x && !apart.y)
    return {
      capacity: whole.capacity.value,
      elasticity: whole.capacity.elasticity,
      branches: whole.branches,
    };
  const parts = partRates(evaluator, rates, apart).map((part) =>
    walk(provision, evaluator, part, design),
  );
  const capacity = parts.reduce((sum, part) => sum + part.capacity.value, 0);
  const change = parts.reduce((sum, part) => sum + part.capacity.change, 0);
  const [first] = parts;
  const alike = parts.every((part) => part.capacity.elasticity === first?.capacity.elasticity);
  return {
    capacity,
    elasticity: alike && first ? first.capacity.elasticity : change / capacity,
    branches: [
      { symbol: "group divided", clause: "", taken: `${apart.x} ${apart.y}` },
      ...parts.flatMap((part) => part.branches),
    ],
  };
}

interface Walk {
  readonly capacity: Rate;
  readonly rates: ReadonlyMap<string, Rate>;
  readonly branches: CapacityRate["branches"];
}

function walk(
  provision: ProvisionDefinition,
  evaluator: RowEvaluator,
  inputs: readonly Rate[],
  design: boolean,
): Walk {
  const rates = new Map<string, Rate>(
    evaluator.reads.map(({ name }, k) => [name, inputs[k] as Rate] as const),
  );
  const at = (name: string): Rate => rates.get(name) ?? rateOfPower(NaN, 0);
  const branches = stepsOf(provision).map(({ symbol, clause, formula }) => {
    let taken = "";
    rates.set(
      symbol,
      rateOf(parseFormula(formula), at, (branch) => (taken += branch)),
    );
    return { symbol, clause, taken };
  });
  const nominal = at(provision.capacity);
  if (!design || !provision.reduction) return { capacity: nominal, rates, branches };
  return {
    capacity: rateOf(parseFormula(`${provision.reduction.symbol} * ${provision.capacity}`), at),
    rates,
    branches,
  };
}

function actsApart(
  { split }: ProvisionDefinition,
  evaluator: RowEvaluator,
  rates: ReadonlyMap<string, Rate>,
): { x: boolean; y: boolean } {
  const value = (name: string): number => rates.get(name)?.value ?? (name.startsWith("n_") ? 1 : 0);
  const side = (axis: "x" | "y"): boolean => {
    const critical = split?.[axis];
    return (
      critical !== undefined &&
      positionOf(evaluator, critical) >= 0 &&
      value(`n_${axis}`) > 1 &&
      value(`s_${axis}`) > value(critical)
    );
  };
  return { x: side("x"), y: side("y") };
}

/**
 * The inputs of each part follow those of the group linearly, so their changes are what taking
 * apart makes of the changes.
 */
function partRates(
  evaluator: RowEvaluator,
  rates: readonly Rate[],
  apart: { x: boolean; y: boolean },
): Rate[][] {
  const counts = new Set(["n_x", "n_y"]);
  const values = takenApart(
    evaluator,
    rates.map(({ value }) => value),
    apart,
  );
  const changes = takenApart(
    evaluator,
    rates.map(({ value, change }, k) =>
      counts.has(evaluator.reads[k]?.name ?? "") ? value : change,
    ),
    apart,
  );
  return values.map(({ args }, part) =>
    args.map((value, k) => {
      const change = changes[part]?.args[k] ?? 0;
      const own = rates[k] as Rate;
      if (value === own.value) return own;
      return counts.has(evaluator.reads[k]?.name ?? "") || !Number.isFinite(value)
        ? rateOfPower(value, 0)
        : { value, change, elasticity: change === 0 ? 0 : change / value };
    }),
  );
}
