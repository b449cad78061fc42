import { INPUTS, isInput, type InputDefinition, type InputName } from "../inputs/catalogue";
import { MISSING } from "./loop-plan";
import { stepsOf } from "./provision-symbols";
import {
  requireOffered,
  type CodeDefinition,
  type Limit,
  type ProvisionDefinition,
  type Step,
} from "./definition";
import type { Confidence } from "./levels";
import { rowEvaluator } from "./evaluate-row";
import { withholdingBits } from "./group-split";
import type { TestColumns } from "../inputs/prepare";
import type { PredictionSettings } from "./predict";
import { trace, type Trace } from "./trace";
import { statementOf } from "./yes-or-no";

/**
 * The length over which a bar develops a stress, written once in the formula language like any
 * provision. Its formulas may also read `f_required`, the stress to be developed. Steps shared with
 * the code's force-at-an-embedment provision are the same objects, so the two directions cannot
 * differ in their factors.
 */
export interface DevelopmentLengthDefinition {
  /** code id, slash, clause, then what sets it apart if need be */
  readonly id: string;
  readonly title: string;
  readonly confidence: Confidence;
  /** What of an M is from memory, where it is not the whole equation. */
  readonly toCheck?: string;
  /**
   * Month and year in which published pages were searched for it in vain; what was found stands no
   * longer in `toCheck`.
   */
  readonly searched?: string;
  readonly limits: readonly Limit[];
  readonly steps: readonly Step[];
  /** The symbol of the step that is the length. */
  readonly length: string;
  readonly notes?: readonly string[];
}

/** A development length with the code whose units and options it uses. */
export interface DevelopmentLengthRule {
  readonly code: CodeDefinition;
  readonly definition: DevelopmentLengthDefinition;
}

/**
 * The bar, the concrete and the stress to be developed, in N, mm, MPa; flags are 1 or 0 and count 0
 * when left out.
 */
export type DevelopmentCase = { readonly [name in InputName]?: number } & {
  readonly f_required: number;
};

/** One line of the calculation, in the edition's unit. */
export interface DevelopmentStep {
  readonly symbol: string;
  readonly value: number;
  readonly unit: string;
  readonly clause: string;
  readonly meaning: string;
}

export interface DevelopmentLength {
  /** In mm; NaN when withheld. */
  readonly length_mm: number;
  readonly steps: readonly DevelopmentStep[];
  /** Why the length is withheld, or which limit is not kept. */
  readonly reasons: readonly string[];
}

const REQUIRED = {
  f_required: { quantity: "stress", value: NaN, meaning: "stress to be developed", clause: "" },
} as const;
const compiled = new WeakMap<
  DevelopmentLengthDefinition,
  { code: CodeDefinition; provision: ProvisionDefinition }
>();

/**
 * The development length of a bar for a stress, with every step.
 * @param options the code's options, N, mm, MPa; what is left out keeps the code's default
 * @throws Error for an option the code does not offer
 * @example
 * developmentLength(developmentLengthRule("csa-s806-12/9.3.2"), { f_required: 550, d_a: 15.9, A_b: 199, f_c: 28, c_cover: 30, gfrp: 1, frp: 1, sand_coated: 1 })
 */
export function developmentLength(
  rule: DevelopmentLengthRule,
  given: DevelopmentCase,
  options: Readonly<Record<string, number>> = {},
): DevelopmentLength {
  requireOffered(rule.code, Object.keys(options));
  const { code, provision } = asProvision(rule);
  const evaluator = rowEvaluator(code, provision);
  const inSi = code.system.inSi;
  const valueOf = (name: string): number =>
    name === "f_required"
      ? given.f_required
      : (options[name] ?? code.options[name]?.value ?? inputOf(given, name));
  const args = evaluator.reads.map((read) => valueOf(read.name) / inSi[read.quantity]);
  const values = new Float64Array(evaluator.symbols.length + 1);
  const flags = evaluator.evaluate(args, values);
  const withheld = (flags & withholdingBits(provision)) !== 0;
  const missing =
    (flags & MISSING) === 0
      ? []
      : evaluator.reads
          .filter((_, k) => Number.isNaN(args[k]))
          .map((read) => `needs ${read.name} (${read.meaning})`);
  const broken = provision.limits
    .filter((_, k) => (flags & (1 << k)) !== 0)
    .map((limit) => `${limit.clause}: ${limit.says}`);
  const length = values[evaluator.symbols.indexOf(rule.definition.length)] ?? NaN;
  return {
    length_mm: withheld ? NaN : length * inSi.length,
    steps: stepsOf(provision).map(({ symbol, quantity, clause, meaning }, k) => ({
      symbol,
      value: values[k] ?? NaN,
      unit: code.system.unit[quantity],
      clause,
      meaning,
    })),
    reasons: [...broken, ...missing],
  };
}

/**
 * The hand calculation of the length that develops a stress in the bar of one row, printed like
 * that of a capacity.
 * @param f_required stress to be developed, MPa
 * @example
 * showTrace(developmentTrace(developmentLengthRule("aci440.1r-15"), tests, 0, 550)).toText()
 */
export function developmentTrace(
  rule: DevelopmentLengthRule,
  tests: TestColumns,
  i: number,
  f_required: number,
  settings: PredictionSettings = {},
): Trace {
  const { code, provision } = asProvision(rule);
  const made = trace(code, provision, tests, i, {
    ...settings,
    level: "nominal",
    options: { ...settings.options, f_required },
  });
  const [part] = made.parts;
  return { ...made, code: rule.code, length_mm: (part?.capacity ?? NaN) * code.system.inSi.length };
}

/**
 * A length runs through the same compiler as a capacity; only its last step is a length instead of
 * a force.
 */
function asProvision({ code, definition }: DevelopmentLengthRule): {
  code: CodeDefinition;
  provision: ProvisionDefinition;
} {
  const known = compiled.get(definition);
  if (known?.code.id === code.id) return known;
  const made = {
    code: { ...code, options: { ...code.options, ...REQUIRED } },
    provision: {
      ...definition,
      action: "tension",
      modes: ["bond"],
      levels: ["nominal"],
      capacity: definition.length,
    } as ProvisionDefinition,
  };
  compiled.set(definition, made);
  return made;
}

function inputOf(given: DevelopmentCase, name: string): number {
  if (!isInput(name)) return NaN;
  const stated = given[name];
  if (stated !== undefined) return stated;
  const { blank, meaning }: InputDefinition = INPUTS[name];
  if (blank !== undefined) return blank;
  if (name === "A_b" && given.d_a !== undefined) return (Math.PI / 4) * given.d_a * given.d_a;
  if (name === "lambda") return 1;
  return statementOf(meaning) === null ? NaN : 0;
}
