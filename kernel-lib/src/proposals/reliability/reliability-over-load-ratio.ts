import { firstOrderReliability, type FirstOrderReliability } from "./first-order-reliability";
import type { LimitState } from "./limit-state";
import {
  COMBINATIONS,
  factoredLoad,
  governingCombination,
  marginal,
  type LoadCombination,
  type LoadModel,
  type MarginalKind,
} from "./load-statistics";

/** What the reliability of a design depends on, but for the load ratio. */
export interface DesignReliabilityInput {
  /** λ_R and V_R of resistance over nominal. */
  readonly resistance: { readonly bias: number; readonly cov: number };
  readonly resistanceKind?: MarginalKind;
  readonly loads: LoadModel;
  readonly variable?: "live" | "snow" | "wind";
  readonly combinations?: readonly LoadCombination[];
}

/**
 * The limit state R − D − L of a design that just meets φ R_n = factored load, in units of the
 * nominal load D + L.
 * @param variableShare L/(D + L), from 0 to 1; the load that is absent takes no part
 * @throws RangeError for a factor that is not above zero or a share outside 0 to 1
 */
export function designLimitState(
  input: DesignReliabilityInput,
  resistanceFactor: number,
  variableShare: number,
): LimitState {
  if (!(resistanceFactor > 0 && Number.isFinite(resistanceFactor)))
    throw new RangeError(
      `designLimitState: the resistance factor is ${resistanceFactor}, expected a positive number`,
    );
  if (!(variableShare >= 0 && variableShare <= 1))
    throw new RangeError(
      `designLimitState: the share of variable load is ${variableShare}, expected a number from 0 to 1`,
    );
  const {
    resistance,
    resistanceKind = "lognormal",
    loads,
    variable = "live",
    combinations = COMBINATIONS,
  } = input;
  const dead = 1 - variableShare;
  const nominal = factoredLoad(dead, variableShare, combinations) / resistanceFactor;
  const statistics = loads.variable[variable];
  const parts = [
    {
      name: "resistance",
      symbol: "R",
      sign: 1,
      law: marginal(resistanceKind, resistance.bias * nominal, resistance.cov),
    },
    ...(dead > 0
      ? [
          {
            name: "dead load",
            symbol: "D",
            sign: -1,
            law: marginal(loads.dead.kind, loads.dead.meanOverNominal * dead, loads.dead.cov),
          },
        ]
      : []),
    ...(variableShare > 0
      ? [
          {
            name: `${variable} load`,
            symbol: "L",
            sign: -1,
            law: marginal(
              statistics.kind,
              statistics.meanOverNominal * variableShare,
              statistics.cov,
            ),
          },
        ]
      : []),
  ];
  const signs = parts.map(({ sign }) => sign);
  const symbols = parts.map(({ symbol }) => symbol);
  const names = parts.map(({ name }) => name);
  return {
    names,
    marginals: parts.map(({ law }) => law),
    gradient: () => signs,
    g: parts.length === 3 ? overBoth : overOne,
    formula: { text: symbols.join(" - "), symbols },
  };
}

/**
 * The reliability of a design at one load ratio, and the combination that its strength had to meet.
 */
export interface ReliabilityAtLoadRatio {
  readonly variableShare: number;
  readonly combination: string;
  readonly reliability: FirstOrderReliability;
}

/**
 * The reliability of one design at several load ratios: data for the figure of index against load
 * ratio.
 */
export function reliabilityOverLoadRatio(
  input: DesignReliabilityInput,
  resistanceFactor: number,
  variableShares: readonly number[] = [0.3, 0.4, 0.5, 0.6, 0.7],
): ReliabilityAtLoadRatio[] {
  return variableShares.map((variableShare) => ({
    variableShare,
    combination: governingCombination(1 - variableShare, variableShare, input.combinations).says,
    reliability: firstOrderReliability(designLimitState(input, resistanceFactor, variableShare)),
  }));
}

// Written out, since a solution by first-order reliability calls them most.
const overBoth = (x: readonly number[]): number =>
  (x[0] as number) - (x[1] as number) - (x[2] as number);
const overOne = (x: readonly number[]): number => (x[0] as number) - (x[1] as number);
