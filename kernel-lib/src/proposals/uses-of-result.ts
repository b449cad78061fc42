import type { CodeDefinition, ProvisionDefinition } from "../provisions";
import { sameFormula } from "./changed-provision";

/**
 * The provisions of a code that use the result of another: they hold its capacity, by the same
 * equation, as a step on the way to a capacity of their own. By ACI 318-19, 17.7.3, pryout draws on
 * the lesser of N_cbg (17.6.2) and N_ag (17.6.5), so that a change of either is one of pryout.
 *
 * A step of the same name but another equation is not that result; neither is the capacity of an
 * alternative form.
 * @example usesOfResult(code("aci318-19"), provision).map(({ id }) => id) // ["aci318-19/17.7.3"]
 */
export function usesOfResult(
  code: CodeDefinition,
  target: ProvisionDefinition,
): readonly ProvisionDefinition[] {
  const result = target.steps.find(({ symbol }) => symbol === target.capacity);
  if (result === undefined) return [];
  return code.provisions.filter(
    (one) =>
      one !== target &&
      one.capacity !== target.capacity &&
      one.steps.some(
        ({ symbol, formula }) => symbol === result.symbol && sameFormula(formula, result.formula),
      ),
  );
}
