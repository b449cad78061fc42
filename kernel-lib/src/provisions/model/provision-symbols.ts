import { didYouMean } from "../../dataset";
import { parseFormula, symbolsOf, type Expression } from "../../formula";
import { INPUTS, isInput } from "../inputs/catalogue";
import type { CodeDefinition, ProvisionDefinition } from "./definition";
import type { Quantity } from "./unit-system";

/** A symbol that a provision reads without defining it. */
export interface ReadSymbol {
  readonly name: string;
  readonly quantity: Quantity;
  readonly origin: "input" | "option";
  readonly meaning: string;
}

const known = new WeakMap<
  ProvisionDefinition,
  { readonly options: CodeDefinition["options"]; readonly read: readonly ReadSymbol[] }
>();

/**
 * The symbols a provision reads from rows and options, in order of first use; refuses undefined
 * ones.
 */
export function symbolsRead(
  code: CodeDefinition,
  provision: ProvisionDefinition,
): readonly ReadSymbol[] {
  const found = known.get(provision);
  if (found?.options === code.options) return found.read;
  const read = findSymbols(code, provision);
  known.set(provision, { options: code.options, read });
  return read;
}

function findSymbols(code: CodeDefinition, provision: ProvisionDefinition): readonly ReadSymbol[] {
  const defined = new Set<string>();
  const read = new Map<string, ReadSymbol>();
  const visit = (formula: string, where: string): void => {
    for (const name of symbolsOf(parseFormula(formula))) {
      if (defined.has(name) || read.has(name) || name === "pi") continue;
      const option = code.options[name];
      if (option)
        read.set(name, {
          name,
          quantity: option.quantity,
          origin: "option",
          meaning: option.meaning,
        });
      else if (isInput(name))
        read.set(name, {
          name,
          quantity: INPUTS[name].quantity,
          origin: "input",
          meaning: INPUTS[name].meaning,
        });
      else {
        const valid = [...defined, ...Object.keys(code.options), ...Object.keys(INPUTS)];
        throw new Error(
          `${provision.id}, ${where}: symbol "${name}" is neither an earlier step, an input nor an option of ${code.id}${didYouMean(name, valid)}. Expected one of ${valid.join(", ")}.`,
        );
      }
    }
  };
  for (const step of stepsOf(provision)) {
    visit(step.formula, `step ${step.symbol}`);
    defined.add(step.symbol);
  }
  for (const limit of provision.limits) visit(limit.holds, `limit ${limit.clause}`);
  return [...read.values()];
}

/** All steps including the reduction, which comes last. */
export function stepsOf(provision: ProvisionDefinition): ProvisionDefinition["steps"] {
  return provision.reduction ? [...provision.steps, provision.reduction] : provision.steps;
}

/** The expression of the value asked for: the capacity, times the reduction at design level. */
export function capacityExpression(provision: ProvisionDefinition, design: boolean): Expression {
  const capacity: Expression = { kind: "symbol", name: provision.capacity };
  if (!design || !provision.reduction) return capacity;
  return {
    kind: "binary",
    operator: "*",
    left: { kind: "symbol", name: provision.reduction.symbol },
    right: capacity,
  };
}
