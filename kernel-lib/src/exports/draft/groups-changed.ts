import { changedProvisions, type BeforeAfter, type ProposedChange } from "../../proposals";
import type { CodeDefinition } from "../../provisions";

/** The groups that the proposal's own provisions change. */
export function groupsChangedBy(
  proposal: ProposedChange,
  code: CodeDefinition,
  change: BeforeAfter | undefined,
): BeforeAfter["groups"] {
  const ids = changedProvisions(proposal);
  const modes = code.provisions
    .filter(({ id }) => ids.includes(id))
    .map(({ modes: [first] }) => first as string);
  return (change?.groups ?? []).filter(
    ({ by, before, after }) =>
      before.mean !== after.mean &&
      (by["mode"] === undefined || modes.includes(String(by["mode"]))),
  );
}
