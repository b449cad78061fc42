import type { TestTable } from "../../dataset";
import type { CodeDefinition } from "../../provisions";
import type { VerdictWord } from "../../comparison";
import { counted } from "../../statistics/reading";
import {
  beforeAfterOf,
  studiedGroups,
  type BeforeAfter,
  type BeforeAfterSettings,
} from "../before-after";
import type { DerivedFactor } from "../criteria";
import type { ProposedChange } from "../proposal";
import { groupReliability, type GroupReliabilitySettings } from "../reliability";
import { groupStandings, type GroupStanding } from "../standing";
import { ruleSimplicity, type RuleSimplicity } from "./rule-simplicity";

/** One way of changing a code. */
export interface Alternative {
  readonly label: string;
  readonly proposals: readonly ProposedChange[];
}

/** One alternative judged by safety, economy and simplicity. */
export interface AlternativeOutcome {
  readonly label: string;
  readonly proposals: readonly ProposedChange[];
  /**
   * Safety: the least characteristic ratio of the groups, share of single tests below the capacity,
   * minimum reliability index.
   */
  readonly leastCharacteristic: number | null;
  readonly leastGroup: string | null;
  readonly shareUnsafe: number | null;
  readonly leastIndex: number | null;
  /**
   * Groups that fall short, that are undecided, and that are reduced more than their own tests
   * require.
   */
  readonly short: readonly string[];
  readonly undecided: readonly string[];
  readonly reducedMore: readonly string[];
  /** The worst verdict in general of the groups. */
  readonly verdict: VerdictWord;
  /**
   * Economy: mean test/predicted over the tests, and mean predicted/test, the share of the strength
   * that may be used.
   */
  readonly meanRatio: number | null;
  readonly usedStrength: number | null;
  readonly simplicity: RuleSimplicity;
  /** Another alternative that is nowhere worse and somewhere better; null when there is none. */
  readonly dominatedBy: string | null;
  readonly standings: readonly GroupStanding[];
  readonly reading: string;
}

export interface AlternativesSettings extends BeforeAfterSettings {
  readonly reliability?: GroupReliabilitySettings;
  /**
   * Factors of the groups, from which it is said whether a group is reduced more than its own tests
   * require.
   */
  readonly factors?: readonly DerivedFactor[];
  /** Which groups count; those that any alternative changes when left out. */
  readonly judged?: (by: GroupStanding["by"]) => boolean;
}

/**
 * Compares alternatives on the same tests and the same groups: those that any of them changes, so
 * that a group none touches decides nothing. An alternative is dominated when another is no worse
 * in the least characteristic ratio, the share unsafe, the least index, the strength used and the
 * numbers to find, and better in one of them.
 *
 * @throws Error for two alternatives of one name, or a proposal that the code cannot take
 * @example
 * compareAlternatives(tests, code("aci318-19"), usualAlternatives(found), ["mode", "bar_material"])
 */
export function compareAlternatives(
  tests: TestTable,
  code: CodeDefinition,
  alternatives: readonly Alternative[],
  by: readonly string[],
  settings: AlternativesSettings = {},
): AlternativeOutcome[] {
  const twice = alternatives.find(
    ({ label }, k) => alternatives.findIndex((one) => one.label === label) !== k,
  );
  if (twice)
    throw new Error(`Two alternatives are named "${twice.label}"; expected different names.`);
  const present = studiedGroups(tests, code, by, settings);
  const changes = alternatives.map(({ proposals }) =>
    beforeAfterOf(tests, code, proposals, by, settings, present),
  );
  const touched = new Set(
    changes.flatMap(({ groups }) =>
      groups
        .filter(({ before, after }) => before.mean !== after.mean || before.n !== after.n)
        .map(({ label }) => label),
    ),
  );
  const judged = (group: BeforeAfter["groups"][number]): boolean =>
    settings.judged ? settings.judged(group.by) : touched.has(group.label);
  const reliability = groupReliability(tests, code, settings.reliability);
  const bare = alternatives.map((one, k) => {
    const change = changes[k] as BeforeAfter;
    const groups = change.groups.filter(judged);
    return outcomeOf(
      one,
      groupStandings(
        { ...change, groups },
        reliability,
        settings.factors ? { factors: settings.factors } : {},
      ),
      groups,
    );
  });
  return bare.map((one) => {
    const better = bare.find((other) => dominates(other, one));
    return {
      ...one,
      dominatedBy: better?.label ?? null,
      reading: readingOf(one, better?.label ?? null),
    };
  });
}

const WORST_FIRST: readonly VerdictWord[] = [
  "falls short",
  "undecided",
  "too few series",
  "too few tests",
  "no criterion",
  "meets",
];

type Bare = Omit<AlternativeOutcome, "dominatedBy" | "reading">;

function outcomeOf(
  { label, proposals }: Alternative,
  standings: readonly GroupStanding[],
  groups: BeforeAfter["groups"],
): Bare {
  const told = standings.flatMap((one) =>
    one.after.lower === null ? [] : [{ label: one.label, value: one.after.lower }],
  );
  const least = told.reduce<{ label: string; value: number } | null>(
    (low, one) => (low === null || one.value < low.value ? one : low),
    null,
  );
  const values = groups.flatMap(({ after }) =>
    after.evidence.filter(({ bound }) => !bound).map(({ ratio }) => ratio),
  );
  const mean = (list: readonly number[]): number | null =>
    list.length === 0 ? null : list.reduce((sum, one) => sum + one, 0) / list.length;
  const indices = standings.flatMap(({ after }) =>
    after.leastIndex === null ? [] : [after.leastIndex],
  );
  const of = (verdict: VerdictWord): string[] =>
    standings.filter(({ after }) => after.verdict === verdict).map((one) => one.label);
  return {
    label,
    proposals,
    standings,
    simplicity: ruleSimplicity(proposals),
    leastCharacteristic: least?.value ?? null,
    leastGroup: least?.label ?? null,
    shareUnsafe: mean(values.map((ratio) => (ratio < 1 ? 1 : 0))),
    leastIndex: indices.length === 0 ? null : Math.min(...indices),
    short: of("falls short"),
    undecided: of("undecided"),
    reducedMore: standings
      .filter(({ reducedMore }) => reducedMore !== null && reducedMore > 1e-9)
      .map((one) => one.label),
    verdict: WORST_FIRST.find((verdict) => of(verdict).length > 0) ?? "too few series",
    meanRatio: mean(values),
    usedStrength: mean(values.map((ratio) => 1 / ratio)),
  };
}

/** Larger is better in each; what cannot be estimated is worst. */
function merits(one: Bare): number[] {
  const orWorst = (value: number | null): number => value ?? -Infinity;
  return [
    orWorst(one.leastCharacteristic),
    one.shareUnsafe === null ? -Infinity : -one.shareUnsafe,
    orWorst(one.leastIndex),
    orWorst(one.usedStrength),
    -one.simplicity.lookUps,
  ];
}

function dominates(better: Bare, worse: Bare): boolean {
  if (better === worse) return false;
  const [a, b] = [merits(better), merits(worse)];
  const noise = 1e-9;
  return (
    a.every((value, k) => value === (b[k] ?? NaN) || value >= (b[k] ?? NaN) - noise) &&
    a.some((value, k) => value > (b[k] ?? NaN) + noise)
  );
}

function readingOf(one: Bare, dominatedBy: string | null): string {
  const safe =
    one.leastCharacteristic === null
      ? "no characteristic ratio can be estimated"
      : `lowest r_k ${one.leastCharacteristic.toFixed(3)} (${one.leastGroup ?? ""})`;
  const groups = (n: number): string => counted(n, "group");
  const { numbers, conditions } = one.simplicity;
  const more =
    one.reducedMore.length === 0
      ? ""
      : `; ${groups(one.reducedMore.length)} reduced more than ${one.reducedMore.length === 1 ? "its" : "their"} own tests require`;
  return `${one.label}: ${safe}; ${groups(one.short.length)} ${one.short.length === 1 ? "falls" : "fall"} short, ${one.undecided.length} undecided${more}; mean ratio ${one.meanRatio?.toFixed(2) ?? "–"}; ${counted(numbers, "number")} and ${counted(conditions, "condition")} to find${dominatedBy === null ? "" : `; dominated by "${dominatedBy}"`}.`;
}
