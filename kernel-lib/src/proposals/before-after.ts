import {
  compare,
  groupRatios,
  type ComparisonSettings,
  type Evidence,
  type GroupSettings,
  type RatioGroup,
} from "../comparison";
import type { TestTable } from "../dataset";
import type { CodeDefinition } from "../provisions";
import { applyProposals } from "./apply-proposal";
import type { ProposedChange } from "./proposal";

/** What a comparison before and after is told. */
export interface BeforeAfterSettings extends ComparisonSettings, GroupSettings {
  /** The modes looked at; every mode when left out. */
  readonly modes?: readonly string[];
  /** Which pairs of test and provision are looked at; every pair when left out. */
  readonly pairs?: (one: Evidence) => boolean;
}

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
  /**
   * Groups that now meet and did not before, that fall short with the proposals, and that are
   * undecided with them; all in general.
   */
  readonly nowMeet: readonly string[];
  readonly stillShort: readonly string[];
  readonly undecided: readonly string[];
  /**
   * Groups that a restriction leaves without any ratio, and groups that an added provision brings.
   */
  readonly withdrawn: readonly string[];
  readonly added: readonly string[];
}

/**
 * Runs one comparison twice, with the code as it stands and with the proposals applied.
 * @param present the groups of the code as it stands, where they are known already
 * @example beforeAfterOf(tests, code("aci318-19"), [proposal], ["mode", "bar_material"])
 */
export function beforeAfterOf(
  tests: TestTable,
  code: CodeDefinition,
  proposals: readonly ProposedChange[],
  by: readonly string[],
  settings: BeforeAfterSettings = {},
  present?: readonly RatioGroup[],
): BeforeAfter {
  const proposed = applyProposals(code, proposals);
  const before = present ?? studiedGroups(tests, code, by, settings);
  const known = new Map(before.map((group) => [group.label, group]));
  const after = new Map(
    studiedGroups(tests, proposed, by, settings, known).map((group) => [group.label, group]),
  );
  const groups = before.flatMap((group) => {
    const changed = after.get(group.label);
    return changed ? [{ label: group.label, by: group.by, before: group, after: changed }] : [];
  });
  const labels = (holds: (group: BeforeAfterGroup) => boolean): string[] =>
    groups.filter(holds).map(({ label }) => label);
  return {
    groups,
    present: code,
    proposed,
    nowMeet: labels(
      ({ before: old, after: now }) => old.verdict !== "meets" && now.verdict === "meets",
    ),
    stillShort: labels(({ after: now }) => now.verdict === "falls short"),
    undecided: labels(({ after: now }) => now.verdict === "undecided"),
    withdrawn: before.filter(({ label }) => !after.has(label)).map(({ label }) => label),
    added: [...after.keys()].filter((label) => !before.some((group) => group.label === label)),
  };
}

/** The groups of a comparison, of the modes looked at only. */
export function studiedGroups(
  tests: TestTable,
  code: CodeDefinition,
  by: readonly string[],
  settings: BeforeAfterSettings,
  known?: ReadonlyMap<string, RatioGroup>,
): RatioGroup[] {
  const comparison = compare(tests, code, settings);
  const { modes, pairs } = settings;
  const evidence = comparison.evidence.filter(
    (one) => (modes?.includes(one.mode) ?? true) && (pairs?.(one) ?? true),
  );
  return groupRatios({ ...comparison, evidence }, by, settings, known);
}
