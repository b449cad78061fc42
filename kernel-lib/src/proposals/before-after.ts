import { compare, groupRatios, type ComparisonSettings, type GroupSettings, type RatioGroup } from "../comparison";
import type { TestTable } from "../dataset";
import type { CodeDefinition } from "../provisions";
import { applyProposal } from "./apply-proposal";
import type { ProposedChange } from "./proposal";

/** One group as the provision stands and with the proposals. */
export interface BeforeAfterGroup {
  readonly label: string;
  readonly by: RatioGroup["by"];
  readonly before: RatioGroup;
  readonly after: RatioGroup;
}

/** The same comparison for the present and the proposed code. */
export interface BeforeAfter {
  readonly groups: readonly BeforeAfterGroup[];
  readonly present: CodeDefinition;
  readonly proposed: CodeDefinition;
  /** Groups that fell short and meet now, fall short still, and met before but are now held lower than needed. */
  readonly mended: readonly string[];
  readonly stillShort: readonly string[];
  /** Groups that a restriction leaves without any ratio, and groups that an added provision brings. */
  readonly withdrawn: readonly string[];
  readonly added: readonly string[];
}

/**
 * Runs one comparison twice, with the code as it stands and with the proposals applied in order.
 * @example beforeAfterOf(tests, code("aci318-19"), [proposal], ["mode", "bar_material"])
 */
export function beforeAfterOf(tests: TestTable, code: CodeDefinition, proposals: readonly ProposedChange[], by: readonly string[], settings: ComparisonSettings & GroupSettings = {}): BeforeAfter {
  const proposed = proposals.reduce(applyProposal, code);
  const before = groupRatios(compare(tests, code, settings), by, settings);
  const after = new Map(groupRatios(compare(tests, proposed, settings), by, settings).map((group) => [group.label, group]));
  const groups = before.flatMap((group) => {
    const changed = after.get(group.label);
    return changed ? [{ label: group.label, by: group.by, before: group, after: changed }] : [];
  });
  const labels = (holds: (group: BeforeAfterGroup) => boolean): string[] => groups.filter(holds).map(({ label }) => label);
  return {
    groups, present: code, proposed,
    mended: labels(({ before: old, after: now }) => old.verdict === "falls short" && now.verdict === "meets"),
    stillShort: labels(({ after: now }) => now.verdict === "falls short"),
    withdrawn: before.filter(({ label }) => !after.has(label)).map(({ label }) => label),
    added: [...after.keys()].filter((label) => !before.some((group) => group.label === label)),
  };
}
