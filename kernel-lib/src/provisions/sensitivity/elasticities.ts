import type { TestColumns } from "../inputs/prepare";
import type { CodeDefinition, ProvisionDefinition } from "../model/definition";
import type { PredictionSettings } from "../model/predict";
import { nearbySwitches } from "./nearby-switches";
import { rowVariables } from "./row-inputs";
import type { RowElasticities, CapacityElasticities } from "./row-elasticities";
import { RowOfCode } from "./row-of-code";
import { lawChange, takeovers } from "./law-changes";

/**
 * Elasticities d ln N / d ln x of every capacity of one row, and of the governing one, by every
 * input of the row.
 *
 * They are exact derivatives of the formulas by the chain rule, not differences: a pure power law
 * gives its exponent. At a kink they are those of the branch that the value takes. Every change of
 * law within `within` (default 1 %) above and below is listed with its place, the elasticity beyond
 * and, where the code is not continuous, the jump.
 * @param settings level, options and readings as for `predict`; `within` relative, above 0 and
 *   below 1
 * @throws RangeError for a row that the table has not, or a step out of range
 * @example
 * elasticities(code("aci318-19"), tests, 0).governing?.by.map(({ variable, elasticity }) => [variable.name, elasticity])
 */
export function elasticities(
  code: CodeDefinition,
  tests: TestColumns,
  i: number,
  settings: PredictionSettings & { readonly within?: number } = {},
): RowElasticities {
  const within = settings.within ?? 0.01;
  if (!(within > 0 && within < 1))
    throw new RangeError(
      `elasticities: the step is ${within}, expected a number above 0 and below 1`,
    );
  const row = new RowOfCode(code, tests, i, settings);
  const variables = rowVariables(code, tests, i, settings, row.symbols);
  const of = (provision: ProvisionDefinition): CapacityElasticities => ({
    provision,
    capacity_N: row.capacityOf(provision),
    governs: provision === row.governs,
    by: variables.map((variable) => {
      const at = row.alongProvision(provision, variable);
      return {
        variable,
        elasticity: at(0).elasticity,
        switches: nearbySwitches(variable.value, within, at, (before, beyond) =>
          lawChange(provision, before, beyond),
        ),
      };
    }),
  });
  const capacities = row.applying.map(of);
  const least = capacities.find(({ governs }) => governs);
  const governingOne = least && {
    ...least,
    by: least.by.map((one) => ({
      ...one,
      switches: [...one.switches, ...takeovers(row, one.variable, within)].sort(
        (a, b) => Math.abs(a.relative) - Math.abs(b.relative),
      ),
    })),
  };
  return {
    code,
    level: row.level,
    within,
    variables,
    capacities,
    governing: governingOne ?? null,
    withheld: row.withheld,
  };
}
