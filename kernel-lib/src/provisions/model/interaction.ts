import { evaluate, parseFormula } from "../../formula";
import type { CodeDefinition } from "./definition";
import type { InteractionScope, InteractionEquation, InteractionRule } from "./interaction-rule";
import type { FailureMode } from "./levels";
import type { CodePrediction, PredictionSettings } from "./predict";
import { setupAllows } from "./setup-modes";

/** Straight lines N/N_n <= 1, V/V_n <= 1 and N/N_n + V/V_n <= 1.2 in terms of the resultant. */
export const STRAIGHT_LINES = "min(P_N, P_V, 1.2 / (1 / P_N + 1 / P_V))";

/** (N/N_n)^p + (V/V_n)^p <= 1 in terms of the resultant; `power` as written in a formula. */
export function powerSum(power: string, inverse: string): string {
  return `1 / ((1 / P_N)^${power} + (1 / P_V)^${power})^${inverse}`;
}

/** One equation for one row, N. */
export interface InteractionPart {
  readonly equation: InteractionEquation;
  /**
   * Columns of the prediction with the least capacity of each action within the equation's scope.
   */
  readonly tension: number;
  readonly shear: number;
  readonly resultant: number;
}

/** The resultant capacity of one row with both loads. */
export interface InteractionCapacity {
  /** Degrees from the bar axis; NaN where the row does not state it. */
  readonly angle: number;
  /** N, resultant; NaN where the angle or a capacity of an action is missing. */
  readonly capacity: number;
  /** Equations that have a capacity of both actions. */
  readonly parts: readonly InteractionPart[];
  /** The equation met first; null where there is none. */
  readonly governing: InteractionPart | null;
  /** Actions without any capacity. */
  readonly without: readonly ("tension" | "shear")[];
  /** Equations without a capacity of one action, in words: what the resultant rests on besides. */
  readonly unchecked: readonly string[];
}

const OF_THE_BAR: readonly FailureMode[] = [
  "bar_rupture",
  "yield",
  "rupture_at_surface",
  "bar_shear",
];

/**
 * The interaction a code applies: that of its option `interaction_form`, else its first; null where
 * it states none.
 */
export function interactionRule(
  code: CodeDefinition,
  settings: PredictionSettings = {},
): InteractionRule | null {
  const chosen =
    settings.options?.["interaction_form"] ?? code.options["interaction_form"]?.value ?? 0;
  return code.interactions?.[chosen] ?? null;
}

/**
 * The resultant at which one equation is met, N.
 *
 * With tension P cos(alpha) and shear P sin(alpha) the resultant grows from zero at a constant
 * angle; P_N = N_n / cos(alpha) and P_V = V_n / sin(alpha). The test-to-predicted ratio P_test / P
 * is the factor by which both loads exceed the interaction.
 * @param tension capacity in tension, N; @param shear capacity in shear, N; @param angle degrees
 *   from the bar axis, 0 to 90
 * @example
 * resultantAt({ resultant: STRAIGHT_LINES }, 60_000, 40_000, 30) // 44,553.8: ACI 318-19 17.8
 */
export function resultantAt(
  { resultant }: Pick<InteractionEquation, "resultant">,
  tension: number,
  shear: number,
  angle: number,
): number {
  const along = {
    P_N: evaluate(parseFormula(ALONG.P_N), named({ N_n: tension, alpha: angle })),
    P_V: evaluate(parseFormula(ALONG.P_V), named({ V_n: shear, alpha: angle })),
  };
  return evaluate(parseFormula(resultant), named(along));
}

/** The resultants at which one action alone reaches its capacity. */
export const ALONG = {
  P_N: "N_n / cos(alpha * pi / 180)",
  P_V: "V_n / sin(alpha * pi / 180)",
} as const;

const named =
  (values: Readonly<Record<string, number>>) =>
  (name: string): number =>
    values[name] ?? NaN;

/**
 * The resultant capacity of a row with tension and shear, from the least applicable capacities of
 * each action (of the bar apart from the others where the code says so); null for a row with one
 * load, or where the code states no interaction.
 * @example interactionAt(predict(code("aci318-19"), tests), 0)?.capacity
 */
export function interactionAt(prediction: CodePrediction, i: number): InteractionCapacity | null {
  const { tests } = prediction.specimens;
  const rule = interactionRule(prediction.code, prediction.settings);
  if (rule === null || tests.texts("action")[i] !== "tension_and_shear") return null;
  const angle = tests.has("load_angle_deg") ? (tests.numbers("load_angle_deg")[i] ?? NaN) : NaN;
  const parts: InteractionPart[] = [];
  const unchecked: string[] = [];
  for (const equation of rule.equations) {
    const [tension, shear] = [
      leastColumn(prediction, i, "tension", equation.of),
      leastColumn(prediction, i, "shear", equation.of),
    ];
    const force = (column: number): number => prediction.columns[column]?.capacity[i] ?? NaN;
    if (tension >= 0 && shear >= 0)
      parts.push({
        equation,
        tension,
        shear,
        resultant: resultantAt(equation, force(tension), force(shear), angle),
      });
    else
      unchecked.push(
        `${equation.clause} (${equation.meaning}) not checked: no capacity in ${tension < 0 && shear < 0 ? "either action" : tension < 0 ? "tension" : "shear"}`,
      );
  }
  const governing = parts.reduce<InteractionPart | null>(
    (least, part) => (least === null || part.resultant < least.resultant ? part : least),
    null,
  );
  const without = (["tension", "shear"] as const).filter(
    (action) => leastColumn(prediction, i, action, "every") < 0,
  );
  return {
    angle,
    capacity: governing?.resultant ?? NaN,
    parts,
    governing,
    without,
    unchecked: parts.length === 0 ? [] : unchecked,
  };
}

/**
 * The column with the least capacity of one action that the set-up leaves free; -1 where none
 * applies.
 */
function leastColumn(
  { columns, specimens: { tests } }: CodePrediction,
  i: number,
  action: "tension" | "shear",
  scope: InteractionScope,
): number {
  const setup = tests.texts("setup")[i] ?? null;
  return columns.reduce((least, { provision, capacity }, k) => {
    const value = capacity[i] ?? NaN;
    const within =
      scope === "every" || OF_THE_BAR.includes(provision.modes[0]) === (scope === "steel");
    if (
      Number.isNaN(value) ||
      !within ||
      provision.action !== action ||
      !provision.modes.some((mode) => setupAllows(setup, mode))
    )
      return least;
    return value < (columns[least]?.capacity[i] ?? Infinity) ? k : least;
  }, -1);
}
