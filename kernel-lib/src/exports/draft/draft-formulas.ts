import { parseFormula, symbolsOf, symbolText } from "../../formula";
import { printedEquation, type ProposedChange } from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import type { Block } from "../document/document";
import { symbolMeaning } from "./condition-words";

/**
 * The equations of a change, as they are evaluated: the present one removed, the proposed one new.
 */
export function draftFormulas(
  proposal: ProposedChange,
  provision: ProvisionDefinition,
  code: CodeDefinition,
): Block[] {
  const { capacity } = provision;
  const present = printedEquation(provision, capacity, code);
  if ("kind" in proposal) {
    return proposal.kind === "addition"
      ? provision.steps.map(({ symbol, formula }) => ({
          kind: "formula",
          symbol,
          expression: parseFormula(formula),
          change: "inserted",
        }))
      : [{ kind: "formula", symbol: capacity, expression: present }];
  }
  const changed = printedEquation(provision, capacity, code, proposal.symbol);
  const factor = parseFormula(proposal.factor);
  return [
    { kind: "formula", symbol: capacity, expression: present, change: "deleted" },
    { kind: "formula", symbol: capacity, expression: changed, change: "inserted" },
    ...(factor.kind === "number"
      ? []
      : [
          {
            kind: "formula" as const,
            symbol: proposal.symbol,
            expression: factor,
            change: "inserted" as const,
          },
        ]),
  ];
}

/** What the symbols of the equations that stand mean, one a line. */
export function draftSymbols(
  proposal: ProposedChange,
  provision: ProvisionDefinition,
  code: CodeDefinition,
): string[] {
  const read = new Set(
    draftFormulas(proposal, provision, code).flatMap((block) =>
      block.kind === "formula" && block.change !== "deleted"
        ? [block.symbol, ...symbolsOf(block.expression)]
        : [],
    ),
  );
  return [...read]
    .filter((name) => name !== "pi")
    .map((name) => {
      if ("symbol" in proposal && name === proposal.symbol)
        return `${symbolText(name)} = factor for ${proposal.title} (new)`;
      const { meaning, unit } = symbolMeaning(name, code, provision);
      return `${symbolText(name)} = ${meaning}${unit === "" ? "" : `, ${unit}`}`;
    });
}
