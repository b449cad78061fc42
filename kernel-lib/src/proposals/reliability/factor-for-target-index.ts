import { firstOrderReliability, type FirstOrderReliability } from "./first-order-reliability";
import { factoredLoad, COMBINATIONS } from "./load-statistics";
import { lognormalResistanceFactor, sumOfLoads } from "./lognormal-closed-form";
import { designLimitState, type DesignReliabilityInput } from "./reliability-over-load-ratio";

export interface TargetFactorInput extends DesignReliabilityInput {
  readonly targetIndex: number;
  /** Number of tests behind the resistance statistics. */
  readonly n: number;
  /** Shares L/(D + L) looked at; default 0.3 to 0.7. */
  readonly variableShares?: readonly number[];
}

export interface TargetFactor {
  readonly status: "derived" | "not derived";
  /**
   * The least φ over the load ratios, by first-order reliability; null where nothing is derived.
   */
  readonly factor: number | null;
  readonly targetIndex: number;
  readonly n: number;
  readonly byShare: readonly {
    readonly variableShare: number;
    readonly factor: number;
    readonly closedForm: number;
    readonly firstOrderForm: number;
    readonly reliability: FirstOrderReliability;
  }[];
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

const LEAST_TESTS = 3;

/**
 * Resistance factor φ with which a design that just meets φ R_n = factored load has the target
 * reliability index, at each load ratio, by first-order reliability; beside it the log-normal
 * closed forms.
 *
 * Derived from fewer than 3 tests nothing is. The closed form differs where the loads are not
 * log-normal.
 * @throws RangeError for a target index outside 0 to 8
 * @example
 * factorForTargetIndex({ resistance: { bias: 1.1, cov: 0.15 }, loads: loadModel("nowak-2003"), targetIndex: 3.5, n: 12 }).factor
 */
export function factorForTargetIndex(input: TargetFactorInput): TargetFactor {
  const {
    targetIndex,
    n,
    resistance,
    loads,
    variable = "live",
    combinations = COMBINATIONS,
    variableShares = [0.3, 0.4, 0.5, 0.6, 0.7],
  } = input;
  if (!(targetIndex > 0 && targetIndex <= 8))
    throw new RangeError(
      `factorForTargetIndex: the target index is ${targetIndex}, expected a number above 0 and at most 8`,
    );
  const assumptions = [
    `load statistics: ${loads.title}; ${loads.variable[variable].meaning}, ${loads.variable[variable].kind}; dead load ${loads.dead.kind}`,
    `combinations ${combinations.map(({ says }) => says).join(", ")}; variable load ${variableShares.map((share) => `${Math.round(100 * share)} %`).join(", ")} of the nominal load`,
    `resistance over nominal ${input.resistanceKind ?? "lognormal"}, bias ${resistance.bias.toFixed(3)}, coefficient of variation ${resistance.cov.toFixed(3)}; loads and resistance independent`,
  ];
  const base = { targetIndex, n, assumptions };
  if (n < LEAST_TESTS)
    return {
      ...base,
      status: "not derived",
      factor: null,
      byShare: [],
      warnings: [],
      reading: `No resistance factor: ${n} tests do not allow the scatter to be estimated; at least ${LEAST_TESTS} are needed.`,
    };
  const byShare = variableShares.map((variableShare) => {
    const [dead, live] = [loads.dead, loads.variable[variable]];
    const load = sumOfLoads([
      { mean: dead.meanOverNominal * (1 - variableShare), cov: dead.cov },
      { mean: live.meanOverNominal * variableShare, cov: live.cov },
    ]);
    const factored = factoredLoad(1 - variableShare, variableShare, combinations);
    const closedForm = lognormalResistanceFactor(resistance, factored, load, targetIndex, "exact");
    const { factor, reliability } = solve(input, variableShare, closedForm);
    return {
      variableShare,
      factor,
      closedForm,
      firstOrderForm: lognormalResistanceFactor(
        resistance,
        factored,
        load,
        targetIndex,
        "first order",
      ),
      reliability,
    };
  });
  const unsolved = byShare.filter(({ factor }) => Number.isNaN(factor));
  if (unsolved.length > 0)
    return {
      ...base,
      status: "not derived",
      factor: null,
      byShare: byShare.filter(({ factor }) => !Number.isNaN(factor)),
      warnings: [],
      reading: `No resistance factor: no design point was found at a variable share of ${unsolved.map(({ variableShare }) => variableShare).join(", ")}.`,
    };
  const least = byShare.reduce((a, b) => (b.factor < a.factor ? b : a));
  const atEnd =
    byShare.length > 1 &&
    (least.variableShare === Math.min(...variableShares) ||
      least.variableShare === Math.max(...variableShares));
  const warnings = [
    ...(atEnd
      ? [
          `the least favorable load ratio is the last one considered (variable fraction ${least.variableShare}): beyond it the factor may be lower`,
        ]
      : []),
    ...(n < 10
      ? [
          `${n} tests: the index assumes that their coefficient of variation is known, but it is poorly estimated`,
        ]
      : []),
    ...(least.factor > 1 ? ["the factor is above 1: a code would use at most 1"] : []),
    ...(resistance.cov > 0.3
      ? [
          `coefficient of variation ${resistance.cov.toFixed(2)}: the tail of the distribution, and therefore the index, depends on the assumed distribution`,
        ]
      : []),
  ];
  return {
    ...base,
    status: "derived",
    factor: least.factor,
    byShare,
    warnings,
    reading: `φ = ${least.factor.toFixed(3)} gives an index of ${targetIndex} at the least favorable load ratio (variable share ${least.variableShare}); ${n} tests.`,
  };
}

/** Secant search on ln φ, in which the index is nearly a straight line. */
function solve(
  input: TargetFactorInput,
  variableShare: number,
  start: number,
): { factor: number; reliability: FirstOrderReliability } {
  const at = (lnFactor: number, from?: readonly number[]): FirstOrderReliability =>
    firstOrderReliability(
      designLimitState(input, Math.exp(lnFactor), variableShare),
      from ? { start: from } : {},
    );
  let [a, b] = [Math.log(start), Math.log(start) + 0.02];
  let [atA, atB] = [at(a), at(b)];
  for (let k = 0; k < 30 && Math.abs(atB.index - input.targetIndex) > 1e-11; k++) {
    const slope = (atB.index - atA.index) / (b - a);
    if (!(slope < 0)) break;
    const next = b + Math.max(-1, Math.min(1, (input.targetIndex - atB.index) / slope));
    [a, atA, b] = [b, atB, next];
    atB = at(b, atB.u);
  }
  const found = atB.status === "converged" && Math.abs(atB.index - input.targetIndex) < 1e-9;
  return { factor: found ? Math.exp(b) : NaN, reliability: atB };
}
