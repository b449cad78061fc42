import { valueWords } from "../comparison";
import type { TestTable } from "../dataset";
import type { FactorsOfMode } from "./pooling";
import type { Proposal } from "./proposal";

/**
 * A factor for FRP bars, for one fiber only where the tests behind it hold bars of no other: a
 * proposal must not reach bars that nobody tested.
 * @example
 * const glass = tests.where(({ bar_material }) => bar_material === "gfrp");
 * const only = factorCase(glass, code("aci318-19"));
 * narrowedToTested(only.proposals[0], only.derived, glass).where // "gfrp == 1"
 */
export function narrowedToTested(
  proposal: Proposal,
  derived: readonly FactorsOfMode[],
  tests: TestTable,
): Proposal {
  const of = derived.find(({ mode }) => proposal.id === `frp-${mode.replaceAll("_", "-")}`);
  const rows = (of?.classes ?? []).flatMap(({ evidence }) => evidence.map(({ row }) => row));
  const materials = [...new Set(rows.map((row) => tests.text(row, "bar_material")))];
  const [only] = materials;
  if (materials.length !== 1 || !only || proposal.where !== "frp == 1") return proposal;
  const words = valueWords(only);
  const narrowed = (text: string): string => text.replaceAll("FRP bars", `${words} bars`);
  return {
    ...proposal,
    id: proposal.id.replace(/^frp/, only),
    title: narrowed(proposal.title),
    where: `${only} == 1`,
    says: `${proposal.factor} for ${words} bars, 1 for others`,
    rationale: narrowed(proposal.rationale),
  };
}
