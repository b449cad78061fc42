import { createRandom, normal } from "../../statistics";
import { firstOrderReliability, type LimitState } from "./first-order-reliability";
import { normalSpaceVariable } from "./standard-normal-space";

export interface SimulationSettings {
  /** Default 100 000. */
  readonly samples?: number;
  /** Default a fixed text: the same call gives the same answer. */
  readonly seed?: number | string;
  /** `importance` draws about the first-order design point, `crude` about the medians. Default `importance`. */
  readonly sampling?: "importance" | "crude";
}

export interface SimulatedReliability {
  readonly status: "estimated" | "cannot tell";
  readonly sampling: "importance" | "crude";
  readonly samples: number;
  /** Samples that failed. */
  readonly failures: number;
  readonly failureProbability: number | null;
  /** Standard error of the failure probability. */
  readonly standardError: number | null;
  /** −Φ⁻¹(p), with the interval that p ± 1.96 standard errors gives; upper is null where that reaches 0. */
  readonly index: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reading: string;
}

const STANDARD = normal();

/**
 * Failure probability P(g(X) < 0) by Monte Carlo simulation. With importance sampling the standard normal density is
 * moved to the design point u* and each failure weighted by exp(−v·u* − |u*|²/2), u = u* + v: unbiased whatever the
 * limit state, and about as exact at 1 in 10⁶ as at 1 in 10.
 *
 * Fewer than 10 failures give no estimate, since its error could not be told either.
 * @throws RangeError for a number of samples that is not a whole number of at least 100
 * @example simulatedReliability(state, { samples: 100_000, seed: 1 }).index
 */
export function simulatedReliability(state: LimitState, settings: SimulationSettings = {}): SimulatedReliability {
  const { samples = 100_000, seed = "simulated reliability", sampling = "importance" } = settings;
  if (!(Number.isInteger(samples) && samples >= 100)) throw new RangeError(`simulatedReliability: ${samples} samples, expected a whole number of at least 100`);
  const first = sampling === "importance" ? firstOrderReliability(state) : null;
  if (first?.status === "not converged") return cannotTell(sampling, samples, 0, "no design point to draw about; use crude sampling");
  const centre = first?.u ?? state.marginals.map(() => 0);
  const { sum, squares, failures } = draw(state, centre, samples, seed);
  const p = sum / samples;
  if (failures < 10 || !(p > 0)) return cannotTell(sampling, samples, failures, `only ${failures} samples failed; draw more or use importance sampling`);
  const standardError = Math.sqrt(Math.max(0, squares / samples - p * p) / (samples - 1));
  const indexOf = (probability: number): number | null => (probability > 0 && probability < 1 ? STANDARD.upperQuantile(probability) : null);
  const [index, lower, upper] = [indexOf(p), indexOf(p + 1.96 * standardError), indexOf(p - 1.96 * standardError)];
  return {
    status: "estimated", sampling, samples, failures, failureProbability: p, standardError, index, lower, upper,
    reading: `Failure probability ${p.toExponential(3)}, standard error ${standardError.toExponential(1)} (${failures} of ${samples} samples failed, ${sampling} sampling, seed ${String(seed)}); reliability index ${index === null ? "not told" : index.toFixed(3)}.`,
  };
}

function draw(state: LimitState, centre: readonly number[], samples: number, seed: number | string): { sum: number; squares: number; failures: number } {
  const n = centre.length;
  const random = createRandom(seed);
  const space = state.marginals.map(normalSpaceVariable);
  const half = 0.5 * centre.reduce((total, value) => total + value * value, 0);
  const x = new Array<number>(n).fill(0);
  const { g } = state;
  let [sum, squares, failures] = [0, 0, 0];
  for (let k = 0; k < samples; k++) {
    let exponent = half;
    for (let i = 0; i < n; i++) {
      const v = random.normal();
      const at = centre[i] as number;
      exponent += v * at;
      x[i] = (space[i] as (typeof space)[number]).x(at + v);
    }
    if (g(x) >= 0) continue;
    const weight = half === 0 ? 1 : Math.exp(-exponent);
    sum += weight;
    squares += weight * weight;
    failures += 1;
  }
  return { sum, squares, failures };
}

function cannotTell(sampling: "importance" | "crude", samples: number, failures: number, reason: string): SimulatedReliability {
  return { status: "cannot tell", sampling, samples, failures, failureProbability: null, standardError: null, index: null, lower: null, upper: null, reading: `Failure probability: cannot tell, ${reason}.` };
}
