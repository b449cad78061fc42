import { beforeAfterOf, changedProvisions, factorCase } from "../proposals";
import { provisionOf } from "../proposals/apply-proposal";
import type { TestTable } from "../dataset";
import type { CodeDefinition } from "../provisions";
import type { Proposal } from "./proposals/proposal";
import { LEVEL, QUESTION } from "./packet-question";
import type { StudyPacketSettings } from "./study-packet";

const ASKED = { level: LEVEL, ...QUESTION } as const;
const BY = ["mode", "bar_material"];

/**
 * The case of a packet with the changes of a proposal instead of those derived by default: the same
 * comparison and factors, before and after of the proposal, and its drafts.
 * @throws RangeError for a provision that is added or withdrawn
 */
export function caseOfProposal(
  proposal: Proposal,
  present: CodeDefinition,
  tests: TestTable,
): Pick<StudyPacketSettings, "found" | "drafts" | "present" | "proposal"> {
  const found = factorCase(tests, present, ASKED);
  const proposed = proposal.proposed.map((one) => {
    if ("factor" in one) return one;
    throw new RangeError(
      `The packet shows factors on provisions, but "${one.title}" is not a factor. Expected factors only; proposal.ballot() and proposal.draft() show every change.`,
    );
  });
  const changed = proposed.flatMap((one) =>
    changedProvisions(one).flatMap((id) => provisionOf(present, id)?.modes ?? []),
  );
  const modes = [...new Set([...found.derived.map(({ mode }) => mode), ...changed])];
  const change = beforeAfterOf(tests, present, proposed, BY, { ...ASKED, modes });
  return {
    found: { ...found, proposals: proposed, change },
    drafts: [...proposal.draft()],
    present,
    proposal,
  };
}
