import { step, symbolsRead, type CodeDefinition, type ProvisionDefinition } from "../provisions";
import type { Proposal } from "./proposal";

/**
 * The code with a proposal applied: the provision's capacity times `if(where, factor, 1)`, as further steps of its
 * trace. A factor of 1 changes nothing, bit for bit. All other provisions stay as they are.
 *
 * @throws Error when the code has no such provision, the symbol is taken, or a formula reads an unknown symbol
 * @example compare(tests, applyProposal(code("aci318-19"), proposal))
 */
export function applyProposal(code: CodeDefinition, proposal: Proposal): CodeDefinition {
  const target = code.provisions.find(({ id }) => id === proposal.changes);
  if (!target) throw new Error(`Proposal ${proposal.id} changes "${proposal.changes}"; expected one of ${code.provisions.map(({ id }) => id).join(", ")}.`);
  const taken = [...target.steps.map(({ symbol }) => symbol), ...symbolsRead(code, target).map(({ name }) => name)];
  const capacity = `${target.capacity}_proposed`;
  for (const symbol of [proposal.symbol, capacity]) {
    if (taken.includes(symbol)) throw new Error(`Proposal ${proposal.id} introduces the symbol "${symbol}", which ${target.id} already uses; expected a new one.`);
  }
  const force = target.steps.find(({ symbol }) => symbol === target.capacity)?.quantity ?? "force";
  const changed: ProvisionDefinition = {
    ...target,
    steps: [
      ...target.steps,
      step(proposal.symbol, `if(${proposal.where}, ${proposal.factor}, 1)`, "number", "proposed", `proposed factor: ${proposal.says}`),
      step(capacity, `${proposal.symbol} * ${target.capacity}`, force, "proposed", "capacity with the proposed factor"),
    ],
    capacity,
  };
  const result: CodeDefinition = { ...code, title: `${code.title}, with proposal ${proposal.id}`, provisions: code.provisions.map((provision) => (provision === target ? changed : provision)) };
  symbolsRead(result, changed);
  return result;
}
