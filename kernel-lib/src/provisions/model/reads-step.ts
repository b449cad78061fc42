import { parseFormula, type Expression } from "../../formula";
import type { ProvisionDefinition } from "./definition";
import { NEVER, ALWAYS, restsOnMissing } from "./missing";

/**
 * The condition under which the capacity of a provision reads one of its steps: pryout reads the
 * bond strength of adhesive bars only. The branch that an `if` does not take reads nothing.
 * @example
 * const pryout = code("aci318-19").provisions.find(({ id }) => id === "aci318-19/17.7.3");
 * toFormula(readsStep(pryout, "N_ag")) // "if((post_installed == 1), 1, 0)"
 */
export function readsStep(provision: ProvisionDefinition, symbol: string): Expression {
  const formulas = new Map(provision.steps.map((one) => [one.symbol, one.formula]));
  const read = (name: string): Expression => {
    if (name === symbol) return ALWAYS;
    const formula = formulas.get(name);
    return formula === undefined ? NEVER : restsOnMissing(parseFormula(formula), new Map(), read);
  };
  return read(provision.capacity);
}
