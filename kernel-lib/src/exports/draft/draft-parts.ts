import type { TestTable } from "../../dataset";
import type { BeforeAfter, ProposedChange } from "../../proposals";
import type { CodeDefinition, ProvisionDefinition } from "../../provisions";

/** What a draft rests on beside the proposal. */
export interface DraftResults {
  readonly code: CodeDefinition;
  /**
   * The comparison with and without the proposal; without it the draft has no table of evidence.
   */
  readonly change?: BeforeAfter;
  /**
   * The tests of that comparison: the limits are then what they cover, in the units of the edition.
   */
  readonly tests?: TestTable;
  readonly question?: { readonly fractile: number; readonly confidence: number };
  /** The caution that stands at the end and cannot be edited. */
  readonly caution?: string;
}

/** Heading of the sub-clause that the change adds. */
export function subclause(number: string, symbols: readonly string[]): string {
  return symbols.length === 0
    ? `${number} Where this section does not apply`
    : `${number} ${symbols.length === 1 ? "Factor" : "Factors"} ${symbols.join(" and ")}`;
}

/** Rows of the tests whose capacity changes: those that failed in the mode and lower bounds. */
export function testsConcerned(groups: BeforeAfter["groups"]): number[] {
  return [...new Set(groups.flatMap(({ before }) => before.evidence.map(({ row }) => row)))];
}

/** The provision of a change. @throws Error where the code has it not */
export function provisionOfChange(
  proposal: ProposedChange,
  code: CodeDefinition,
): ProvisionDefinition {
  if ("kind" in proposal && proposal.kind === "addition") return proposal.provision;
  const found = code.provisions.find(({ id }) => id === proposal.changes);
  if (!found)
    throw new Error(
      `Proposal ${proposal.id} changes "${proposal.changes}"; expected one of ${code.provisions.map(({ id }) => id).join(", ")}.`,
    );
  return found;
}
