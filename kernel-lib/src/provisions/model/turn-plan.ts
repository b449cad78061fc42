import { parseFormula, renameSymbols, toFormula } from "../../formula";
import type { ProvisionDefinition } from "./definition";

/**
 * Turning the plan by a right angle puts edge 2 (or 4) where edge 1 was. The eccentricity is that
 * of the load, across the load; the load does not turn, and so e_y stays.
 */
const TURNED: Readonly<Record<2 | 4, Readonly<Record<string, string>>>> = {
  2: {
    c_1: "c_2",
    c_2: "c_3",
    c_3: "c_4",
    c_4: "c_1",
    n_x: "n_y",
    n_y: "n_x",
    s_x: "s_y",
    s_y: "s_x",
  },
  4: {
    c_1: "c_4",
    c_2: "c_1",
    c_3: "c_2",
    c_4: "c_3",
    n_x: "n_y",
    n_y: "n_x",
    s_x: "s_y",
    s_y: "s_x",
  },
};

/**
 * The steps and limits of a provision written for edge 1, as they read for edge 2 or 4: formulas
 * and the symbols in their meanings.
 */
export function turnedToEdge(
  edge: 2 | 4,
  { steps, limits }: Pick<ProvisionDefinition, "steps" | "limits">,
): Pick<ProvisionDefinition, "steps" | "limits"> {
  const turn = (formula: string): string =>
    toFormula(renameSymbols(parseFormula(formula), TURNED[edge]));
  const inWords = (text: string): string =>
    text.replace(/\b[cns]_[1-4xy]\b/g, (symbol) => TURNED[edge][symbol] ?? symbol);
  return {
    steps: steps.map((line) => ({
      ...line,
      formula: turn(line.formula),
      meaning: inWords(line.meaning),
      ...(line.concerns === undefined ? {} : { concerns: turn(line.concerns) }),
    })),
    limits: limits.map((limit) => ({ ...limit, holds: turn(limit.holds) })),
  };
}
