import { logNormalIntegralWithHazard, normalQuantile } from "../special/normal-integral";

/** Distributions a right-censored sample can be fitted with. */
export type CensoredDistribution = "normal" | "lognormal" | "weibull";

/**
 * A standard law on the whole line: the variable, or its logarithm, is location + scale * Z.
 * `density` and `survival` return the log and its first two derivatives in z into `out`.
 */
export interface LocationScaleLaw {
  readonly onLogs: boolean;
  readonly density: (z: number, out: Float64Array) => void;
  readonly survival: (z: number, out: Float64Array) => void;
  quantile(p: number): number;
  /**
   * Where the number m of failures and the sum of their squares say all: the sum of `density` over
   * failures of mean 0 at z = tau y - g, added to the slopes and curvatures of `into` as in {@link
   * SampleLikelihood}.
   */
  readonly densityOfSums?: (
    m: number,
    sumOfSquares: number,
  ) => (g: number, tau: number, into: Float64Array) => number;
}

const LOG_SQRT_TWO_PI = 0.9189385332046727418;

function standardNormal(onLogs: boolean): LocationScaleLaw {
  return {
    onLogs,
    density(z, out) {
      out[0] = -0.5 * z * z - LOG_SQRT_TWO_PI;
      out[1] = -z;
      out[2] = -1;
    },
    survival(z, out) {
      logNormalIntegralWithHazard(-z, out);
      const hazard = out[1]!;
      out[1] = -hazard;
      // The derivative of the hazard lies in (0, 1); rounding far out must not turn it.
      out[2] = -Math.min(1, Math.max(0, hazard * (hazard - z)));
    },
    quantile: normalQuantile,
    densityOfSums: (m, sumOfSquares) => (g, tau, into) => {
      into[0] = into[0]! - m * g;
      into[1] = into[1]! - tau * sumOfSquares;
      into[2] = into[2]! + m;
      into[4] = into[4]! + sumOfSquares;
      return -0.5 * (tau * tau * sumOfSquares + m * g * g) - m * LOG_SQRT_TWO_PI;
    },
  };
}

/** Smallest-extreme-value law: the logarithm of a Weibull variable. */
const smallestExtreme: LocationScaleLaw = {
  onLogs: true,
  density(z, out) {
    const e = Math.exp(z);
    out[0] = z - e;
    out[1] = 1 - e;
    out[2] = -e;
  },
  survival(z, out) {
    const e = -Math.exp(z);
    out[0] = e;
    out[1] = e;
    out[2] = e;
  },
  quantile: (p) => Math.log(-Math.log1p(-p)),
};

const laws: Record<CensoredDistribution, LocationScaleLaw> = {
  normal: standardNormal(false),
  lognormal: standardNormal(true),
  weibull: smallestExtreme,
};

/**
 * The standard law behind a distribution: normal on values, normal on logs, smallest extreme value
 * on logs.
 */
export function lawOf(distribution: CensoredDistribution): LocationScaleLaw {
  return laws[distribution];
}
