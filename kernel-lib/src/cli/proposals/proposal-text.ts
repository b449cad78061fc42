import { brokenLine } from "../../formula";
import type { BeforeAfter, ProposedChange } from "../../proposals";
import { beforeAfterTable } from "../../tables";

/** The groups that the proposal changes: the others do not concern it. */
export function changedGroups(found: BeforeAfter): BeforeAfter["groups"] {
  return found.groups.filter(
    ({ before, after }) => before.mean !== after.mean || before.verdict !== after.verdict,
  );
}

/** What the evaluation of a proposal rests on. */
export interface EvaluatedProposal {
  readonly proposal: ProposedChange;
  readonly found: BeforeAfter;
  /** Tests outside the proposal's limits of validity. */
  readonly outside: number;
  /** Rows and options chosen, in words for a title. */
  readonly asked: string;
}

/** A proposal before and after, as a table for the terminal. */
export function asText(
  { proposal, found, outside, asked }: EvaluatedProposal,
  width: number,
): string {
  const changed = changedGroups(found);
  const having = (verdict: string): string[] =>
    changed.filter(({ after }) => after.verdict === verdict).map(({ label }) => label);
  const table = beforeAfterTable(
    { ...found, groups: changed },
    {
      id: "before-after",
      title: `Test-to-predicted ratios, present and proposed${asked}`,
    },
  );
  const list = (title: string, labels: readonly string[]): string[] =>
    labels.length > 0 ? [`${title}: ${labels.join("; ")}`] : [];
  const same = found.groups.length - changed.length;
  return [
    ...[`Proposal ${proposal.id}: ${proposal.title}`, proposal.says, ""],
    changed.length > 0 ? table.toText(width) : "No group changes.",
    "",
    ...[
      `${same} ${same === 1 ? "group is" : "groups are"} unchanged.`,
      ...list("Now meet", found.nowMeet),
      ...list("Still fall short", having("falls short")),
      ...list("Undecided", having("undecided")),
      ...list("No longer permitted", found.withdrawn),
      ...list("New", found.added),
      ...(outside > 0
        ? [
            `${outside} ${outside === 1 ? "test is" : "tests are"} outside the proposal's limits of validity.`,
          ]
        : []),
      "A proposal is evidence for a committee, not a design rule. Design must follow the code in force and a licensed engineer.",
    ].map((line) => brokenLine(line, width, 2)),
  ].join("\n");
}
