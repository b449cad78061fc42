import { evaluateConstant, parseFormula, symbolsOf } from "../formula";
import {
  required,
  step,
  symbolsRead,
  type CodeDefinition,
  type ProvisionDefinition,
} from "../provisions";
import {
  changedProvisions,
  type Addition,
  type Proposal,
  type ProposedChange,
  type Restriction,
} from "./proposal";

/**
 * The code with a proposal applied: a factor as further steps of the provision's trace, `if(where,
 * factor, 1)` times its capacity; an addition as a further provision; a restriction as a limit that
 * withholds the capacity.
 *
 * The provisions of a family change together; conditions and factors read the row's own edges in
 * all of them.
 *
 * A factor of 1 changes nothing, bit for bit. All other provisions stay as they are. Where the
 * condition rests on a value that is missing, the capacity is withheld, since it cannot be told
 * which applies.
 * @throws Error when the code has no such provision or has the added one already, the symbol is
 *   taken, or a formula reads an unknown symbol
 * @example compare(tests, applyProposal(code("aci318-19"), proposal))
 */
export function applyProposal(code: CodeDefinition, proposal: ProposedChange): CodeDefinition {
  const title = `${code.title}, with proposal ${proposal.id}`;
  if ("kind" in proposal && proposal.kind === "addition")
    return { ...code, title, provisions: [...code.provisions, added(code, proposal)] };
  const family = changedProvisions(proposal).map((id) => targetOf(code, proposal.id, id));
  const changed = new Map(
    family.map((target) => [
      target,
      "kind" in proposal ? restricted(target, proposal) : factored(code, target, proposal),
    ]),
  );
  const result: CodeDefinition = {
    ...code,
    title,
    provisions: code.provisions.map((provision) => changed.get(provision) ?? provision),
  };
  for (const provision of changed.values()) symbolsRead(result, provision);
  return result;
}

function targetOf(code: CodeDefinition, proposal: string, id: string): ProvisionDefinition {
  const target = code.provisions.find((one) => one.id === id);
  if (!target)
    throw new Error(
      `Proposal ${proposal} changes "${id}"; expected one of ${code.provisions.map((one) => one.id).join(", ")}.`,
    );
  return target;
}

function added(code: CodeDefinition, { id, provision }: Addition): ProvisionDefinition {
  if (!provision.id.startsWith(`${code.id}/`))
    throw new Error(
      `Proposal ${id} adds the provision "${provision.id}"; expected an id that begins with "${code.id}/".`,
    );
  if (code.provisions.some((one) => one.id === provision.id))
    throw new Error(
      `Proposal ${id} adds "${provision.id}", which ${code.id} has already; expected a new id, or a proposal that changes it.`,
    );
  if (!provision.steps.some(({ symbol }) => symbol === provision.capacity))
    throw new Error(
      `Proposal ${id}: the capacity "${provision.capacity}" is no step of ${provision.id}; expected one of ${provision.steps.map(({ symbol }) => symbol).join(", ")}.`,
    );
  symbolsRead(code, provision);
  return provision;
}

function restricted(
  target: ProvisionDefinition,
  { where, says }: Restriction,
): ProvisionDefinition {
  return {
    ...target,
    limits: [...target.limits, required("proposed", `if(${where}, 0, 1) == 1`, says)],
  };
}

function factored(
  code: CodeDefinition,
  target: ProvisionDefinition,
  proposal: Proposal,
): ProvisionDefinition {
  const taken = [
    ...target.steps.map(({ symbol }) => symbol),
    ...symbolsRead(code, target).map(({ name }) => name),
  ];
  const capacity = `${target.capacity}_proposed`;
  for (const symbol of [proposal.symbol, capacity]) {
    if (taken.includes(symbol))
      throw new Error(
        `Proposal ${proposal.id} introduces the symbol "${symbol}", which ${target.id} already uses; expected a new one.`,
      );
  }
  const force = target.steps.find(({ symbol }) => symbol === target.capacity)?.quantity ?? "force";
  // A factor of 1 is the same wherever it applies, so it must not rest on the condition's inputs.
  const formula = isOne(proposal.factor) ? "1" : `if(${proposal.where}, ${proposal.factor}, 1)`;
  return {
    ...target,
    steps: [
      ...target.steps,
      step(proposal.symbol, formula, "number", "proposed", `proposed factor: ${proposal.says}`),
      step(
        capacity,
        `${proposal.symbol} * ${target.capacity}`,
        force,
        "proposed",
        "capacity with the proposed factor",
      ),
    ],
    capacity,
  };
}

function isOne(formula: string): boolean {
  const parsed = parseFormula(formula);
  return [...symbolsOf(parsed)].length === 0 && evaluateConstant(parsed) === 1;
}
