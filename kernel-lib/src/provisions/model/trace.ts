import { evaluate, holds, parseFormula, symbolsOf } from "../../formula";
import type { Expression } from "../../formula";
import { Specimens, type TestColumns } from "../inputs/prepare";
import { capacityExpression, stepsOf } from "./provision-symbols";
import type { CodeDefinition, ProvisionDefinition, Step } from "./definition";
import type { Level } from "./levels";
import { capacityAt, rowEvaluator, type Arguments } from "./evaluate-row";
import { actingTogether, flagsTogether, withholdingBits } from "./group-split";
import { missingInputs } from "./missing";
import { rowArguments, type PredictionSettings } from "./predict";
import { inputsNotStated } from "./rests-on";
import type { Quantity } from "./unit-system";

/** One line of a hand calculation, in the edition's unit and in the library's. */
export interface TraceLine {
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
  readonly valueSi: number;
  readonly unitSi: string;
  readonly clause: string;
  readonly meaning: string;
  /** Absent for an input. */
  readonly expression?: Expression;
  /** A line that says nothing in this row: spreadsheets need it, a printed page does not. */
  readonly unprinted?: true;
}

/** The hand calculation of one acting group. */
export interface TracePart {
  /** Which bars, when a group had to be taken apart; else empty. */
  readonly label: string;
  readonly inputs: readonly TraceLine[];
  readonly steps: readonly TraceLine[];
  /** `holds` is null where a missing input leaves the limit unjudged. */
  readonly limits: readonly {
    readonly clause: string;
    readonly condition: Expression;
    readonly says: string;
    readonly holds: boolean | null;
    readonly effect: "not_applicable" | "outside";
  }[];
  /** In the edition's force unit; NaN when withheld. */
  readonly capacity: number;
  /** Symbols of the inputs that the capacity rests on and that are missing. */
  readonly missing: readonly string[];
}

/** The hand calculation of one provision for one row. */
export interface Trace {
  readonly code: CodeDefinition;
  readonly provision: ProvisionDefinition;
  readonly level: Level;
  readonly parts: readonly TracePart[];
  /** The sum over the parts; NaN when withheld. */
  readonly capacity_N: number;
  /** What the capacity rests on that the row does not state, see `restsOnFinder`. */
  readonly restsOn: readonly string[];
  /**
   * In place of a capacity, where the calculation is that of a development length; NaN when
   * withheld.
   */
  readonly length_mm?: number;
}

/** Units of the library, as the second column of a trace. Forces are shown in kN. */
const SHOWN_SI: Readonly<Record<Quantity, { unit: string; size: number }>> = {
  length: { unit: "mm", size: 1 },
  area: { unit: "mm²", size: 1 },
  force: { unit: "kN", size: 1000 },
  stress: { unit: "MPa", size: 1 },
  modulus: { unit: "GPa", size: 1000 },
  number: { unit: "", size: 1 },
  slip: { unit: "mm", size: 1 },
  section_modulus: { unit: "mm³", size: 1 },
  moment: { unit: "N mm", size: 1 },
};

/**
 * The hand calculation of one provision for one row: every input and step with unit and clause, in
 * order. The last value equals what `predict` gives for the row, bit for bit, since both run the
 * same compiled formulas.
 */
export function trace(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  tests: TestColumns,
  i: number,
  settings: PredictionSettings = {},
): Trace {
  const level = settings.level ?? "nominal";
  const specimens = new Specimens(tests, level, settings.readings ?? {});
  const evaluator = rowEvaluator(code, provision);
  const args = rowArguments(code, evaluator, specimens, settings, i);
  const groups = actingTogether(provision, evaluator, args);
  const values = new Float64Array(evaluator.symbols.length + 1);
  const flags = flagsTogether(
    provision,
    groups.map((part) => evaluator.evaluate(part.args, values, level === "design")),
  );
  const withheld = (flags & withholdingBits(provision)) !== 0;
  const parts = groups.map((part) =>
    tracePart(code, provision, level, part.args, part.label, withheld),
  );
  // Parts are added in the edition's unit and converted once, as the column evaluation does.
  const capacity_N = parts.reduce((sum, part) => sum + part.capacity, 0) * code.system.inSi.force;
  const stated = { code, level, specimens, settings, columns: [], unstated: [] };
  const restsOn = Number.isNaN(capacity_N) ? [] : inputsNotStated(stated, provision)(i);
  return { code, provision, level, parts, capacity_N, restsOn };
}

function tracePart(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  level: Level,
  args: Arguments,
  label: string,
  withheld: boolean,
): TracePart {
  const evaluator = rowEvaluator(code, provision);
  const steps = stepsOf(provision);
  const values = new Float64Array(steps.length + 1);
  const line = (
    symbol: string,
    value: number,
    quantity: Quantity,
    clause: string,
    meaning: string,
    expression?: Expression,
  ): TraceLine => ({
    symbol,
    value,
    unit: code.system.unit[quantity],
    valueSi: (value * code.system.inSi[quantity]) / SHOWN_SI[quantity].size,
    unitSi: SHOWN_SI[quantity].unit,
    clause,
    meaning,
    ...(expression ? { expression } : {}),
  });
  const design = level === "design";
  const known = new Map(evaluator.reads.map(({ name }, k) => [name, args[k] ?? NaN] as const));
  const formulas = new Map(steps.map((step) => [step.symbol, parseFormula(step.formula)]));
  const flags = evaluator.evaluate(args, values, design);
  evaluator.symbols.forEach((name, k) => known.set(name, values[k] ?? NaN));
  const lacking = (formula: string): boolean =>
    missingInputs(parseFormula(formula), formulas, (name) => known.get(name) ?? NaN).size > 0;
  const shown = steps.filter((step) => design || step !== provision.reduction);
  const stated = capacityAt(evaluator, provision, values, design);
  const concerns = ({ concerns: when }: Step): boolean =>
    when === undefined || holds(evaluate(parseFormula(when), (name) => known.get(name) ?? NaN));
  const lines = shown.map((step, k): TraceLine => ({
    ...line(
      step.symbol,
      values[k] ?? NaN,
      step.quantity,
      step.clause,
      step.meaning,
      parseFormula(step.formula),
    ),
    ...(concerns(step) ? {} : { unprinted: true as const }),
  }));
  if (design && provision.reduction) {
    const { symbol } = provision.reduction;
    lines.push(
      line(
        "design_capacity",
        values[steps.length] ?? NaN,
        "force",
        provision.reduction.clause,
        "design capacity",
        parseFormula(`${symbol} * ${provision.capacity}`),
      ),
    );
  }
  return {
    label,
    inputs: evaluator.reads.flatMap((read, k) =>
      design || !concernsReductionOnly(provision, read.name)
        ? [
            line(
              read.name,
              args[k] ?? NaN,
              read.quantity,
              read.origin === "option" ? (code.options[read.name]?.clause ?? "") : "",
              read.meaning,
            ),
          ]
        : [],
    ),
    steps: lines,
    limits: provision.limits.map((limit, k) => ({
      clause: limit.clause,
      condition: parseFormula(limit.holds),
      says: limit.says,
      effect: limit.effect,
      holds: lacking(limit.holds) ? null : (flags & (1 << k)) === 0,
    })),
    capacity: withheld ? NaN : stated,
    missing: [
      ...missingInputs(
        capacityExpression(provision, design),
        formulas,
        (name) => known.get(name) ?? NaN,
      ),
    ],
  };
}

/**
 * Whether only the reduction to the design value reads a symbol, which a nominal calculation then
 * need not show.
 */
function concernsReductionOnly(provision: ProvisionDefinition, name: string): boolean {
  const { steps, limits } = provision;
  const read =
    nominalSymbols.get(provision) ??
    new Set(
      [...steps.map(({ formula }) => formula), ...limits.map(({ holds }) => holds)].flatMap(
        (formula) => [...symbolsOf(parseFormula(formula))],
      ),
    );
  nominalSymbols.set(provision, read);
  return !read.has(name);
}

const nominalSymbols = new WeakMap<ProvisionDefinition, ReadonlySet<string>>();
