import { parseFormula, symbolsOf, symbolText, type Expression } from "../../formula";
import type { ProposedChange } from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";
import type { Block } from "../document/document";
import { symbolMeaning } from "./condition-words";

/** The equations of a change: the present one removed, the proposed one new. */
export function draftFormulas(proposal: ProposedChange, provision: ProvisionDefinition): Block[] {
  const last = (symbol: string): Expression =>
    parseFormula(provision.steps.find((one) => one.symbol === symbol)?.formula ?? symbol);
  if ("kind" in proposal) {
    return proposal.kind === "addition"
      ? provision.steps.map(({ symbol, formula }) => ({
          kind: "formula",
          symbol,
          expression: parseFormula(formula),
          change: "inserted",
        }))
      : [{ kind: "formula", symbol: provision.capacity, expression: last(provision.capacity) }];
  }
  const present = last(provision.capacity);
  const changed: Expression = {
    kind: "binary",
    operator: "*",
    left: { kind: "symbol", name: proposal.symbol },
    right: present,
  };
  const factor = parseFormula(proposal.factor);
  return [
    { kind: "formula", symbol: provision.capacity, expression: present, change: "deleted" },
    { kind: "formula", symbol: provision.capacity, expression: changed, change: "inserted" },
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
    draftFormulas(proposal, provision).flatMap((block) =>
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
