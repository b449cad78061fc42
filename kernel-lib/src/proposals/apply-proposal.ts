import { evaluateConstant, parseFormula, symbolsOf } from "../formula";
import { symbolsRead, type CodeDefinition, type ProvisionDefinition } from "../provisions";
import { factoredProvision, restrictedProvision, withoutResult } from "./changed-provision";
import { changedProvisions, type Addition, type Proposal, type ProposedChange } from "./proposal";
import { usesOfResult } from "./uses-of-result";

/**
 * The changed code: a factor stands in the equation of the provision's capacity, as it is drafted;
 * an addition is a further provision; a restriction withholds the capacity.
 *
 * Where another provision uses the result of a changed one, it uses the changed one: a factor on
 * bond (ACI 318-19, 17.6.5) is in the bond strength that pryout draws on (17.7.3), and pryout has no
 * value where it reads a bond strength that is withdrawn. The provisions of a family change
 * together; conditions and factors read the row's own edges in all of them.
 *
 * A factor of 1 changes nothing, bit for bit. All other provisions stay as they are. Where the
 * condition rests on a value that is missing, the capacity is withheld, since either may apply.
 * @throws Error when the code has no such provision or has the added one already, the symbol is
 *   taken, or a formula reads an unknown symbol
 * @example compare(tests, applyProposal(code("aci318-19"), proposal))
 */
export function applyProposal(code: CodeDefinition, proposal: ProposedChange): CodeDefinition {
  const title = `${code.title}, with proposal ${proposal.id}`;
  if ("kind" in proposal && proposal.kind === "addition")
    return { ...code, title, provisions: [...code.provisions, added(code, proposal)] };
  const family = changedProvisions(proposal).map((id) => targetOf(code, proposal.id, id));
  const changed = new Map<ProvisionDefinition, ProvisionDefinition>();
  for (const target of family) changed.set(target, ownChange(code, target, proposal));
  for (const target of family) {
    for (const user of usesOfResult(code, target))
      changed.set(user, change(code, changed.get(user) ?? user, target, proposal));
  }
  const result: CodeDefinition = {
    ...code,
    title,
    provisions: code.provisions.map((provision) => changed.get(provision) ?? provision),
  };
  for (const provision of changed.values()) symbolsRead(result, provision);
  return result;
}

/**
 * The code with all changes of a proposal. Added provisions come first, so that they use the
 * changed results of others as any provision does; all else in order.
 * @throws Error as `applyProposal`
 * @example applyProposals(code("aci318-19"), [proposal])
 */
export function applyProposals(
  code: CodeDefinition,
  changes: readonly ProposedChange[],
): CodeDefinition {
  const adds = (one: ProposedChange): boolean => "kind" in one && one.kind === "addition";
  return [...changes.filter(adds), ...changes.filter((one) => !adds(one))].reduce(
    applyProposal,
    code,
  );
}

/**
 * The code on which one change of several is judged: the present one with those of the others whose
 * results its provisions use, so that a factor on pryout is what pryout requires beside the factor
 * on bond. The present code itself where there is none.
 * @param k number of the change, from 0
 * @example compare(tests, codeBeforeChange(code("aci318-19"), [proposal], 0))
 */
export function codeBeforeChange(
  code: CodeDefinition,
  changes: readonly ProposedChange[],
  k: number,
): CodeDefinition {
  const own = changes[k] === undefined ? [] : changedProvisions(changes[k]);
  const others = changes.filter(
    (one, j) => j !== k && !changedProvisions(one).some((id) => own.includes(id)),
  );
  const changed = applyProposals(code, others);
  return own.some((id) => provisionOf(changed, id) !== provisionOf(code, id)) ? changed : code;
}

/** A provision of a code by its id; undefined where there is none. */
export function provisionOf(code: CodeDefinition, id: string): ProvisionDefinition | undefined {
  return code.provisions.find((one) => one.id === id);
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
      `Proposal ${id} adds "${provision.id}", which ${code.id} already has; expected a new id, or a proposal that changes it.`,
    );
  if (!provision.steps.some(({ symbol }) => symbol === provision.capacity))
    throw new Error(
      `Proposal ${id}: the capacity "${provision.capacity}" is not a step of ${provision.id}; expected one of ${provision.steps.map(({ symbol }) => symbol).join(", ")}.`,
    );
  symbolsRead(code, provision);
  return provision;
}

/** A provision with a change in its own equation. @throws Error for a symbol that is taken */
function ownChange(
  code: CodeDefinition,
  target: ProvisionDefinition,
  proposal: Exclude<ProposedChange, Addition>,
): ProvisionDefinition {
  if ("kind" in proposal) return restrictedProvision(target, proposal);
  // The factor of another provision whose result this one uses may have the same symbol and value.
  const formula = target.steps.find(({ symbol }) => symbol === proposal.symbol)?.formula;
  const result = target.steps.find(({ symbol }) => symbol === target.capacity)?.formula ?? "0";
  const taken =
    (formula !== undefined && formula !== factorFormula(proposal)) ||
    symbolsOf(parseFormula(result)).has(proposal.symbol) ||
    symbolsRead(code, target).some(({ name }) => name === proposal.symbol);
  if (taken)
    throw new Error(
      `Proposal ${proposal.id} introduces the symbol "${proposal.symbol}", which ${target.id} already uses; expected a new one.`,
    );
  return change(code, target, target, proposal);
}

/** A provision with a change in the result of `source`, which is its own or which it uses. */
function change(
  code: CodeDefinition,
  provision: ProvisionDefinition,
  source: ProvisionDefinition,
  proposal: Exclude<ProposedChange, Addition>,
): ProvisionDefinition {
  return "kind" in proposal
    ? withoutResult(provision, source, proposal)
    : factoredProvision(provision, source, proposal, factorFormula(proposal), code);
}

/**
 * The factor as a step. A factor of 1 is the same wherever it applies, so it must not rest on the
 * condition's inputs.
 */
function factorFormula({ where, factor }: Proposal): string {
  return isOne(factor) ? "1" : `if(${where}, ${factor}, 1)`;
}

function isOne(formula: string): boolean {
  const parsed = parseFormula(formula);
  return [...symbolsOf(parsed)].length === 0 && evaluateConstant(parsed) === 1;
}
