/** The tests against the resistance function: bias, error terms and their scatter. */
export interface ErrorTerms {
  /** b = Σ r_e r_t / Σ r_t², least squares through the origin: large specimens weigh most. */
  readonly b: number;
  /** Mean of r_e / r_t, which weighs every test alike. */
  readonly meanRatio: number;
  /** δ_i = r_e,i / (b r_t,i). */
  readonly delta: readonly number[];
  /** Mean of Δ_i = ln δ_i; enters nothing but the scatter. */
  readonly meanLog: number;
  /** s_Δ = √(Σ(Δ_i − Δ̄)² / (n − 1)). */
  readonly sdLog: number;
  /** V_δ = √(exp s_Δ² − 1). */
  readonly cov: number;
}

/**
 * Steps 3 and 4 of EN 1990:2002 Annex D.8.2.2: correction b, error terms δ_i and their coefficient
 * of variation.
 * @param experimental r_e, one for each test, any unit
 * @param theoretical r_t with the measured properties of the same test, same unit
 * @throws RangeError for columns of different length, fewer than two tests or values not above zero
 * @example errorTermsOf([52, 61, 40], [50, 60, 42]).b
 */
export function errorTermsOf(
  experimental: ArrayLike<number>,
  theoretical: ArrayLike<number>,
): ErrorTerms {
  const n = experimental.length;
  if (theoretical.length !== n)
    throw new RangeError(
      `errorTermsOf: ${n} experimental and ${theoretical.length} theoretical values, expected equal numbers`,
    );
  if (n < 2) throw new RangeError(`errorTermsOf: ${n} tests, expected at least 2`);
  let [cross, square, ratios] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    const [re, rt] = [experimental[i] ?? NaN, theoretical[i] ?? NaN];
    if (!(re > 0 && rt > 0 && Number.isFinite(re) && Number.isFinite(rt)))
      throw new RangeError(
        `errorTermsOf: test ${i + 1} has r_e ${re} and r_t ${rt}, expected positive numbers`,
      );
    cross += re * rt;
    square += rt * rt;
    ratios += re / rt;
  }
  const b = cross / square;
  const delta = Array.from(
    { length: n },
    (_, i) => (experimental[i] ?? NaN) / (b * (theoretical[i] ?? NaN)),
  );
  const logs = delta.map(Math.log);
  const meanLog = logs.reduce((sum, value) => sum + value, 0) / n;
  const sdLog = Math.sqrt(logs.reduce((sum, value) => sum + (value - meanLog) ** 2, 0) / (n - 1));
  return {
    b,
    meanRatio: ratios / n,
    delta,
    meanLog,
    sdLog,
    cov: Math.sqrt(Math.expm1(sdLog * sdLog)),
  };
}
