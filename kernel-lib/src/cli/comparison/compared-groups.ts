import {
  accountOf,
  compare,
  groupRatios,
  type Comparison,
  type ComparisonSettings,
  type GroupSettings,
  type RatioGroup,
  type RowAccount,
} from "../../comparison";
import type { Tests } from "../../face/tests/tests";
import type { CodeDefinition } from "../../provisions";

/** How lower bounds are used: values of `--lower-bounds`. */
export const LOWER_BOUNDS = ["used", "stopped_early", "left_out"] as const;

/** The tests joined with one code's predictions, their groups and the account of rows. */
export interface ComparedGroups {
  readonly comparison: Comparison;
  readonly settings: ComparisonSettings;
  /** With several codes, `code` is the first column of `by`. */
  readonly groups: readonly RatioGroup[];
  readonly account: RowAccount;
}

/** What is asked of the groups. */
export interface Asked {
  readonly by: readonly string[];
  readonly judge: GroupSettings;
  readonly settings: Omit<ComparisonSettings, "lowerBounds" | "options">;
  readonly lowerBounds: (typeof LOWER_BOUNDS)[number];
  /** Options of each code. */
  readonly options: readonly Readonly<Record<string, number>>[];
}

/** The groups of every code asked. */
export function comparedGroups(
  { chosen }: Tests,
  codes: readonly CodeDefinition[],
  { by, judge, settings, lowerBounds, options }: Asked,
): ComparedGroups[] {
  return codes.map((code, k): ComparedGroups => {
    const own: ComparisonSettings = {
      ...settings,
      options: options[k] ?? {},
      lowerBounds: lowerBounds === "stopped_early" ? "stopped early" : "used",
    };
    const whole = compare(chosen.table, code, own);
    const comparison = lowerBounds === "left_out" ? failuresOnly(whole) : whole;
    const groups = groupRatios(comparison, by, judge).map((group) =>
      codes.length === 1
        ? group
        : { ...group, label: `${code.id}, ${group.label}`, by: { code: code.id, ...group.by } },
    );
    return { comparison, settings: own, groups, account: accountOf(comparison, chosen.rejected) };
  });
}

/** The pairs of tests that failed in the mode of the provision. */
function failuresOnly(whole: Comparison): Comparison {
  return {
    ...whole,
    evidence: whole.evidence.filter(({ bound }) => !bound),
    notJudged: whole.notJudged.filter(({ bound }) => !bound),
  };
}
