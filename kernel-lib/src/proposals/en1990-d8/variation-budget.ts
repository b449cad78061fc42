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
  readonly form: "product" | "general";
  /** Each variable's own (exponent or elasticity times V_X) and its share of the sum of squares. */
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
  const parts = variables.map(({ name, cov, exponent = 1 }) =>
    part("variationOfProduct", name, cov, exponent),
  );
  return budget(
    "product",
    parts,
    Math.sqrt(
      Math.expm1(parts.reduce((sum, { contribution }) => sum + Math.log1p(contribution ** 2), 0)),
    ),
  );
}

/**
 * Coefficient of variation of any resistance function: V_rt² = Σ(∂g/∂X_i σ_i)² / g(X_m)² (EN
 * 1990:2002, D.8.2.2.6, general form), derivatives by central differences at the means.
 * @param resistance g_rt, of the variables in order
 * @param variables name, mean and V_X of each
 * @throws RangeError for a function that is not positive and finite at the means
 * @example
 * variationOfFunction(([fc = 0, d = 0]) => Math.sqrt(fc) * d, [{ name: "f_c", mean: 30, cov: 0.15 }, { name: "d", mean: 16, cov: 0.02 }])
 */
export function variationOfFunction(
  resistance: (x: readonly number[]) => number,
  variables: readonly (BasicVariable & { readonly mean: number })[],
): VariationBudget {
  const means = variables.map(({ mean }) => mean);
  const central = resistance(means);
  if (!(central > 0 && Number.isFinite(central)))
    throw new RangeError(
      `variationOfFunction: the resistance at the means is ${central}, expected a positive number`,
    );
  const parts = variables.map(({ name, cov, mean }, k) => {
    const h = 1e-5 * (Math.abs(mean) || 1);
    const at = (shift: number): number =>
      resistance(means.map((value, i) => (i === k ? value + shift : value)));
    // Fourth-order difference: exact to rounding for the powers and roots of capacity formulas.
    const slope = (8 * (at(h) - at(-h)) - (at(2 * h) - at(-2 * h))) / (12 * h);
    return part("variationOfFunction", name, cov, (slope * mean) / central);
  });
  return budget(
    "general",
    parts,
    Math.sqrt(parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0)),
  );
}

function part(
  where: string,
  name: string,
  cov: number,
  elasticity: number,
): { name: string; elasticity: number; cov: number; contribution: number } {
  if (!(cov >= 0 && Number.isFinite(cov)))
    throw new RangeError(
      `${where}: the coefficient of variation of ${name} is ${cov}, expected a number from 0`,
    );
  return { name, elasticity, cov, contribution: Math.abs(elasticity * cov) };
}

function budget(
  form: VariationBudget["form"],
  parts: readonly { name: string; elasticity: number; cov: number; contribution: number }[],
  cov: number,
): VariationBudget {
  const total = parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0);
  return {
    cov,
    form,
    parts: parts.map((one) => ({ ...one, share: total === 0 ? 0 : one.contribution ** 2 / total })),
  };
}
