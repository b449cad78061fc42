import { studentT } from "../distributions/student-t";
import { normalQuantile } from "../special/normal-integral";
import { requireQuestion } from "./tolerance-factor";

/** What a prediction factor depends on. */
export interface PredictionQuestion {
  n: number;
  /** Probability that one further test falls below, default 0.05. */
  fractile?: number;
  /** True where the SD is known beforehand ("V_X known"), default false. */
  sdKnown?: boolean;
  /** Degrees of freedom of the SD where they are not n − 1. */
  degreesOfFreedom?: number;
}

/**
 * Factor k_n of EN 1990:2002 Table D1, the Bayesian prediction with vague prior:
 * k = t(1 − p; n − 1) √(1 + 1/n) for an unknown SD, z √(1 + 1/n) for a known one.
 *
 * It is a prediction of one further test, not a tolerance bound: it holds on average only.
 * @example predictionFactor({ n: 5 }) // 2.335 (Table D1 prints 2.33)
 */
export function predictionFactor(question: PredictionQuestion): number {
  const { n, fractile = 0.05, sdKnown = false } = question;
  requireQuestion("predictionFactor", n, fractile, 0.5);
  const widening = Math.sqrt(1 + 1 / n);
  if (sdKnown) return -normalQuantile(fractile) * widening;
  const degreesOfFreedom = question.degreesOfFreedom ?? n - 1;
  if (!(degreesOfFreedom > 0))
    throw new RangeError(
      `predictionFactor: n is ${n}, expected at least 2 where the SD is not known`,
    );
  return studentT(degreesOfFreedom).upperQuantile(fractile) * widening;
}
