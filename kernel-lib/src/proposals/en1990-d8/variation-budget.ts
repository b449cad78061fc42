/** One basic variable of the resistance function with its scatter from prior knowledge. */
export interface BasicVariable {
  readonly name: string;
  /** Coefficient of variation V_X, dimensionless. */
  readonly cov: number;
  /** Exponent of the variable in a product form, 1 by default: 0.5 for √f_c, 2 for d². */
  readonly exponent?: number;
  /** Where V_X comes from, e.g. "measured, 12 cylinders" or "common practice, no source". */
  readonly source?: string;
}

/** What of the scatter of the resistance function comes from which variable. */
export interface VariationBudget {
  /** V_rt, dimensionless. */
  readonly cov: number;
  /** Each variable's own (exponent, its elasticity, times V_X) and its share of the sum of squares. */
  readonly parts: readonly {
    readonly name: string;
    readonly elasticity: number;
    readonly cov: number;
    readonly contribution: number;
    readonly share: number;
  }[];
}

/**
 * Coefficient of variation of a resistance function that is a product of powers: V_rt² = Π((c_i
 * V_Xi)² + 1) − 1 (EN 1990:2002, D.8.2.2.6, product form, with c_i the exponent).
 * @throws RangeError for a V_X that is negative or not finite
 * @example
 * variationOfProduct([{ name: "f_c", cov: 0.15, exponent: 0.5 }, { name: "d", cov: 0.02 }]).cov
 */
export function variationOfProduct(variables: readonly BasicVariable[]): VariationBudget {
  const parts = variables.map(({ name, cov, exponent = 1 }) => part(name, cov, exponent));
  const total = parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
  return {
    cov: Math.sqrt(
      Math.expm1(parts.reduce((sum, { contribution }) => sum + Math.log1p(contribution ** 2), 0)),
    ),
    parts: parts.map((one) => ({ ...one, share: total === 0 ? 0 : one.contribution ** 2 / total })),
  };
}

function part(
  name: string,
  cov: number,
  elasticity: number,
): { name: string; elasticity: number; cov: number; contribution: number } {
  if (!(cov >= 0 && Number.isFinite(cov)))
    throw new RangeError(
      `variationOfProduct: the coefficient of variation of ${name} is ${cov}, expected a number from 0`,
    );
  return { name, elasticity, cov, contribution: Math.abs(elasticity * cov) };
}
