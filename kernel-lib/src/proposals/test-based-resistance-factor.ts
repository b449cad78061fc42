/**
 * Statistics behind a resistance factor from tests, in the form of the cold-formed-steel
 * specification.
 */
export interface TestBasedInput {
  /** Ratios test/predicted. Lower bounds must not be among them. */
  readonly ratios: ArrayLike<number>;
  /** β_0, e.g. 2.5 for members, 3.5 for connections. */
  readonly targetIndex: number;
  /** M_m and V_M of the material; default 1 and 0.10. */
  readonly materialMean?: number;
  readonly materialCov?: number;
  /** F_m and V_F of the fabrication; default 1 and 0.05. */
  readonly fabricationMean?: number;
  readonly fabricationCov?: number;
  /** V_Q of the load effect; default 0.21. */
  readonly loadCov?: number;
  /** C_φ, calibration coefficient; default 1.52 (1.2D + 1.6L with L/D = 5). */
  readonly calibrationCoefficient?: number;
  /** P_m and V_P stated instead of taken from the ratios, whose number is still n. */
  readonly professionalMean?: number;
  readonly professionalCov?: number;
}

export interface TestBasedResistanceFactor {
  readonly status: "derived" | "not derived";
  readonly n: number;
  /** φ; null where nothing is derived. */
  readonly factor: number | null;
  readonly professionalMean: number | null;
  /** V_P as used, not below 0.065. */
  readonly professionalCov: number | null;
  /** C_P; null for n < 3. */
  readonly sampleCorrection: number | null;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

const LEAST_COV = 0.065;

/**
 * Correction for a small sample, C_P = (1 + 1/n) m/(m − 2) with m = n − 1, for n ≥ 4; 5.7 for n =
 * 3; null below.
 * @example smallSampleCorrection(8) // 1.575
 */
export function smallSampleCorrection(n: number): number | null {
  if (!Number.isInteger(n) || n < 1)
    throw new RangeError(`smallSampleCorrection: n is ${n}, expected a whole number of at least 1`);
  if (n < 3) return null;
  return n === 3 ? 5.7 : ((1 + 1 / n) * (n - 1)) / (n - 3);
}

/**
 * Resistance factor from tests in the form of the North American cold-formed-steel specification
 * (AISI S100, K2.1): φ = C_φ (M_m F_m P_m) exp(−β_0 √(V_M² + V_F² + C_P V_P² + V_Q²)), V_P at least
 * 0.065.
 *
 * The defaults for material and fabrication are common practice, no source for bonded bars; state
 * your own.
 * @throws RangeError for a ratio that is not above zero or a target index that is not above zero
 * @example testBasedResistanceFactor({ ratios, targetIndex: 3.5, materialCov: 0.05 }).factor
 */
export function testBasedResistanceFactor(input: TestBasedInput): TestBasedResistanceFactor {
  const {
    targetIndex,
    materialMean = 1,
    materialCov = 0.1,
    fabricationMean = 1,
    fabricationCov = 0.05,
    loadCov = 0.21,
    calibrationCoefficient = 1.52,
  } = input;
  if (!(targetIndex > 0))
    throw new RangeError(
      `testBasedResistanceFactor: the target index is ${targetIndex}, expected a number above 0`,
    );
  const ratios = Array.from(input.ratios);
  const wrong = ratios.find((ratio) => !(ratio > 0 && Number.isFinite(ratio)));
  if (wrong !== undefined)
    throw new RangeError(
      `testBasedResistanceFactor: a ratio is ${wrong}, expected positive numbers`,
    );
  const n = ratios.length;
  const correction = n === 0 ? null : smallSampleCorrection(n);
  const assumptions = [
    `β_0 = ${targetIndex}, C_φ = ${calibrationCoefficient}, V_Q = ${loadCov}`,
    `material: mean ${materialMean}, V ${materialCov}; fabrication: mean ${fabricationMean}, V ${fabricationCov}`,
    "resistance and load effect are lognormal (first-order equation)",
    "the tests are independent of each other, as C_P assumes; tests of one series share an error, which makes C_P too small and φ too high",
  ];
  if (correction === null) {
    return {
      status: "not derived",
      n,
      factor: null,
      professionalMean: null,
      professionalCov: null,
      sampleCorrection: null,
      assumptions,
      warnings: [],
      reading: `No resistance factor: ${n} tests are too few; the small-sample correction requires at least 3.`,
    };
  }
  const mean = ratios.reduce((sum, ratio) => sum + ratio, 0) / n;
  const sd = Math.sqrt(ratios.reduce((sum, ratio) => sum + (ratio - mean) ** 2, 0) / (n - 1));
  const professionalMean = input.professionalMean ?? mean;
  const found = input.professionalCov ?? sd / mean;
  const professionalCov = Math.max(LEAST_COV, found);
  const scatter = Math.sqrt(
    materialCov ** 2 + fabricationCov ** 2 + correction * professionalCov ** 2 + loadCov ** 2,
  );
  const factor =
    calibrationCoefficient *
    materialMean *
    fabricationMean *
    professionalMean *
    Math.exp(-targetIndex * scatter);
  const warnings = [
    ...(found < LEAST_COV
      ? [
          `V_P of the tests is ${found.toFixed(3)}; the minimum of the equation, ${LEAST_COV}, is used`,
        ]
      : []),
    ...(n < 10
      ? [`${n} tests: the small-sample correction multiplies V_P² by ${correction.toFixed(2)}`]
      : []),
    ...(factor > 1 ? ["the factor is above 1: a code would use at most 1"] : []),
  ];
  return {
    status: "derived",
    n,
    factor,
    professionalMean,
    professionalCov,
    sampleCorrection: correction,
    assumptions,
    warnings,
    reading: `φ = ${factor.toFixed(3)} for a target index of ${targetIndex} (${n} tests, P_m = ${professionalMean.toFixed(3)}, V_P = ${professionalCov.toFixed(3)}, C_P = ${correction.toFixed(3)}).`,
  };
}
