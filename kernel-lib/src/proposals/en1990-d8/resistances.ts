import {
  characteristicFractileFactor,
  designFractileFactor,
  type FractileFactorSource,
} from "./fractile-factors";

/** What the resistances r_k and r_d depend on. */
export interface ResistanceQuestion {
  readonly n: number;
  /** b, the correction; its unit is that of r_e / r_t. */
  readonly b: number;
  /** g_rt(X_m), the resistance function at the means; 1 gives r_k and r_d relative to it. */
  readonly meanResistance: number;
  /** V_δ and V_rt. */
  readonly errorCov: number;
  readonly modelCov: number;
  /**
   * Number of tests that k_n and k_d,n are read with; n by default (D.8.2.2.5 lets a sub-set use
   * the total).
   */
  readonly factorCount?: number;
  readonly variationKnown?: boolean;
  readonly source?: FractileFactorSource;
}

/**
 * Characteristic and design resistance with every number on the way; null where n is too small for
 * the factor.
 */
export interface Resistances {
  readonly totalCov: number;
  readonly qModel: number;
  readonly qError: number;
  readonly q: number;
  readonly alphaModel: number;
  readonly alphaError: number;
  /** `small`: k_n on the error part alone; `large` (n > 100): k_∞ on the whole. */
  readonly form: "small" | "large";
  readonly kn: number | null;
  readonly kdn: number | null;
  readonly characteristic: number | null;
  readonly design: number | null;
}

const [K_INFINITY, KD_INFINITY] = [1.64, 3.04];

/**
 * Steps 7 to 9 of EN 1990:2002 D.8.2.2 and D.8.3:
 * V_r² = (V_δ² + 1)(V_rt² + 1) − 1; Q = √ln(V_r² + 1) and likewise Q_rt, Q_δ; α = Q_·/Q;
 * r = b g_rt(X_m) exp(−k_∞ α_rt Q_rt − k_n α_δ Q_δ − 0.5 Q²), for n > 100 exp(−k_∞ Q − 0.5 Q²).
 */
export function resistancesOf(question: ResistanceQuestion): Resistances {
  const {
    n,
    b,
    meanResistance,
    errorCov,
    modelCov,
    factorCount = n,
    variationKnown = false,
    source = "table",
  } = question;
  const logVariance = (cov: number): number => Math.log1p(cov * cov);
  // ln(V_r² + 1) is the sum of the two logarithms, which keeps its digits where the product would
  // round.
  const [qModel, qError] = [Math.sqrt(logVariance(modelCov)), Math.sqrt(logVariance(errorCov))];
  const q = Math.hypot(qModel, qError);
  const [alphaModel, alphaError] = q === 0 ? [0, 0] : [qModel / q, qError / q];
  const form = factorCount > 100 ? "large" : "small";
  const kn =
    form === "large"
      ? K_INFINITY
      : characteristicFractileFactor({ n: factorCount, variationKnown, source });
  const kdn =
    form === "large"
      ? KD_INFINITY
      : designFractileFactor({ n: factorCount, variationKnown, source });
  const resistance = (infinite: number, factor: number | null): number | null => {
    if (factor === null) return null;
    const reduction =
      form === "large"
        ? infinite * q
        : infinite * alphaModel * qModel + factor * alphaError * qError;
    return b * meanResistance * Math.exp(-reduction - 0.5 * q * q);
  };
  return {
    totalCov: Math.sqrt(Math.expm1(q * q)),
    qModel,
    qError,
    q,
    alphaModel,
    alphaError,
    form,
    kn,
    kdn,
    characteristic: resistance(K_INFINITY, kn),
    design: resistance(KD_INFINITY, kdn),
  };
}
