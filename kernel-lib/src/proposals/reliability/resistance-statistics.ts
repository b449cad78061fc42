/** Mean over nominal (bias) and coefficient of variation of one source of scatter. */
export interface ScatterSource {
  readonly bias: number;
  readonly cov: number;
  readonly source?: string;
}

/** Resistance over nominal, R / R_n = M F P, its parts kept apart. */
export interface ResistanceStatistics {
  readonly material: ScatterSource;
  readonly fabrication: ScatterSource;
  readonly professional: ScatterSource;
  /** λ_R = λ_M λ_F λ_P. */
  readonly bias: number;
  /** V_R = √(V_M² + V_F² + V_P²), first order. */
  readonly cov: number;
  readonly warnings: readonly string[];
}

/**
 * Scatter of the model alone: V_P² = V_test² − V_spec², where V_spec is the scatter of specimen and
 * measurement within the laboratory (0.04 to 0.05 is usual: common practice, no source).
 * @returns null, never a root of a negative number, where the tests scatter less than the
 *   measurement is said to
 * @example withoutMeasurementScatter(0.13, 0.05) // 0.12
 */
export function withoutMeasurementScatter(testCov: number, specimenCov: number): number | null {
  if (!(testCov >= 0 && specimenCov >= 0))
    throw new RangeError(
      `withoutMeasurementScatter: ${testCov} and ${specimenCov}, expected numbers from 0`,
    );
  return testCov < specimenCov
    ? null
    : Math.sqrt((testCov - specimenCov) * (testCov + specimenCov));
}

/**
 * Resistance statistics from material, fabrication and the test-to-predicted ratios, measurement
 * scatter taken out.
 *
 * Ratios to a prediction with measured properties carry the professional part only; with nominal
 * properties they hold material and fabrication already, and those must then be given as bias 1, V
 * 0.
 * @throws RangeError for a bias not above zero or a negative coefficient of variation
 * @example
 * resistanceStatistics({ professional: { bias: 1.1, cov: 0.13 }, specimenCov: 0.05, material: { bias: 1.15, cov: 0.12 }, fabrication: { bias: 1, cov: 0.05 } })
 */
export function resistanceStatistics(input: {
  readonly professional: ScatterSource;
  readonly material?: ScatterSource;
  readonly fabrication?: ScatterSource;
  readonly specimenCov?: number;
}): ResistanceStatistics {
  const {
    material = { bias: 1, cov: 0 },
    fabrication = { bias: 1, cov: 0 },
    specimenCov = 0,
  } = input;
  for (const [name, { bias, cov }] of Object.entries({
    material,
    fabrication,
    professional: input.professional,
  })) {
    if (!(bias > 0 && Number.isFinite(bias) && cov >= 0 && Number.isFinite(cov)))
      throw new RangeError(
        `resistanceStatistics: ${name} has bias ${bias} and coefficient of variation ${cov}, expected a bias above 0 and a coefficient from 0`,
      );
  }
  const modelCov = withoutMeasurementScatter(input.professional.cov, specimenCov);
  const professional = { ...input.professional, cov: modelCov ?? input.professional.cov };
  return {
    material,
    fabrication,
    professional,
    bias: material.bias * fabrication.bias * professional.bias,
    cov: Math.hypot(material.cov, fabrication.cov, professional.cov),
    warnings:
      modelCov === null
        ? [
            `the tests scatter less (${input.professional.cov}) than the stated measurement scatter (${specimenCov}): nothing was removed`,
          ]
        : [],
  };
}
