import {
  mapOperands,
  parseFormula,
  replaceSymbols,
  symbolsOf,
  symbolText,
  toText,
  type Expression,
} from "../../formula";
import type { ProposedChange } from "../../proposals";
import {
  INPUTS,
  isInput,
  SI,
  type CodeDefinition,
  type ProvisionDefinition,
} from "../../provisions";
import { wordsOfCondition } from "./condition-words";

/**
 * What a change reads in mm and MPa beside an edition in other units: the factor's equation and the
 * condition, where either holds a length or a stress; null where the text is the same.
 * @example metricWords(proposal, code("aci318-19"), provision)
 */
export function metricWords(
  change: ProposedChange,
  code: CodeDefinition,
  provision: ProvisionDefinition,
): string | null {
  const size = (name: string): number => {
    const step = provision.steps.find(({ symbol }) => symbol === name);
    const quantity = step?.quantity ?? (isInput(name) ? INPUTS[name].quantity : undefined);
    return quantity === undefined ? 1 : code.system.inSi[quantity];
  };
  const parts: string[] = [];
  if ("factor" in change) {
    const factor = parseFormula(change.factor);
    if ([...symbolsOf(factor)].some((name) => size(name) !== 1))
      parts.push(
        `${symbolText(change.symbol)} = ${toText(
          replaceSymbols(factor, (name) =>
            size(name) === 1
              ? { kind: "symbol", name }
              : {
                  kind: "binary",
                  operator: "/",
                  left: { kind: "symbol", name },
                  right: { kind: "number", value: size(name) },
                },
          ),
        )}`,
      );
  }
  if ("where" in change) {
    const where = parseFormula(change.where);
    if ([...symbolsOf(where)].some((name) => size(name) !== 1))
      parts.push(
        `where ${wordsOfCondition(inMetric(where, size), { ...code, system: SI }, provision)}`,
      );
  }
  return parts.length === 0 ? null : parts.join(" ");
}

/** The numbers that a symbol is compared with, in mm and MPa to four digits. */
function inMetric(e: Expression, size: (name: string) => number): Expression {
  if (e.kind === "binary" && e.left.kind === "symbol" && e.right.kind === "number") {
    const value = Number((e.right.value * size(e.left.name)).toPrecision(4));
    return size(e.left.name) === 1 ? e : { ...e, right: { kind: "number", value } };
  }
  return mapOperands(e, (one) => inMetric(one, size));
}
