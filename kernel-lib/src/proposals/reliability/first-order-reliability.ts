import { normal } from "../../statistics";
import type { LimitState } from "./limit-state";
import { designPointOf } from "./design-point";

export interface FirstOrderReliability {
  readonly status: "converged" | "not converged";
  /** β, the distance of the design point from the origin, negative when the means already fail. */
  readonly index: number;
  /** Φ(−β): exact only for a limit state that is straight in standard normal space. */
  readonly failureProbability: number;
  /** The most likely point of failure, in standard normal space and in the variables' own units. */
  readonly u: readonly number[];
  readonly x: readonly number[];
  /** α_i = −(∂g/∂u_i)/|∇g|: positive for a load, negative for a resistance; Σα² = 1. */
  readonly sensitivity: readonly {
    readonly name: string;
    readonly alpha: number;
    readonly share: number;
  }[];
  readonly iterations: number;
  readonly reading: string;
}

const STANDARD = normal();

/**
 * First-order reliability index of Hasofer and Lind (1974) for any marginals (transformation of
 * Rackwitz and Fiessler 1978). The design point is searched by sequential quadratic programming
 * with a merit function that controls the step (after Zhang and Der Kiureghian 1995), so that
 * curved limit states converge too. Independent variables only; the point found is the nearest one
 * on the way, so a limit state with several design points needs a simulation beside it.
 * @throws RangeError for unequal lists or a limit state that is not finite at the medians
 * @example
 * firstOrderReliability({ names: ["R", "Q"], marginals: [normal(10, 1), normal(5, 1)], g: ([r = 0, q = 0]) => r - q }).index // 3.5355…
 */
export function firstOrderReliability(
  state: LimitState,
  options: {
    readonly tolerance?: number;
    readonly limit?: number;
    readonly start?: readonly number[];
  } = {},
): FirstOrderReliability {
  const n = state.marginals.length;
  if (state.names.length !== n || n === 0)
    throw new RangeError(
      `firstOrderReliability: ${state.names.length} names for ${n} marginals, expected as many, at least one`,
    );
  const { u, x, g, slope, iterations, converged } = designPointOf(state, options);
  let [square, along] = [0, 0];
  for (let i = 0; i < n; i++) {
    square += (slope[i] as number) * (slope[i] as number);
    along += (slope[i] as number) * (u[i] as number);
  }
  const norm = Math.sqrt(square);
  // The distance of the tangent plane, whose error is of second order in that of u.
  const index = norm > 0 ? (g - along) / norm : NaN;
  let lead = 0;
  const sensitivity = state.names.map((name, i) => {
    const alpha = norm > 0 ? 0 - (slope[i] as number) / norm : 0;
    if (Math.abs(slope[i] as number) > Math.abs(slope[lead] as number)) lead = i;
    return { name, alpha, share: alpha * alpha };
  });
  const failureProbability = STANDARD.cdf(-index);
  return {
    status: converged ? "converged" : "not converged",
    index,
    failureProbability,
    u,
    x,
    sensitivity,
    iterations,
    reading: converged
      ? `Reliability index ${index.toFixed(3)} (failure probability ${failureProbability.toExponential(2)}, first order); ${state.names[lead]} governs with ${(100 * (sensitivity[lead]?.share ?? 0)).toFixed(0)} % of the variance.`
      : `No design point was found in ${iterations} iterations; the index ${index.toFixed(3)} must not be used.`,
  };
}
