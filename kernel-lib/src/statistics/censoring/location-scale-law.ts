import { logNormalIntegral, normalHazardBelow, normalQuantile } from "../special/normal-integral";

/** Distributions a right-censored sample can be fitted with. */
export type CensoredDistribution = "normal" | "lognormal" | "weibull";

/**
 * A standard law on the whole line: the variable, or its logarithm, is location + scale * Z.
 * `density` and `survival` return the log and its first two derivatives in z into `out`.
 */
export interface LocationScaleLaw {
  readonly onLogs: boolean;
  density(z: number, out: Float64Array): void;
  survival(z: number, out: Float64Array): void;
  quantile(p: number): number;
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
      const hazard = normalHazardBelow(-z);
      out[0] = logNormalIntegral(-z);
      out[1] = -hazard;
      // The derivative of the hazard lies in (0, 1); rounding far out must not turn it.
      out[2] = -Math.min(1, Math.max(0, hazard * (hazard - z)));
    },
    quantile: normalQuantile,
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

/** The standard law behind a distribution: normal on values, normal on logs, smallest extreme value on logs. */
export function lawOf(distribution: CensoredDistribution): LocationScaleLaw {
  return laws[distribution];
}
