import type { TestTable } from "../../dataset";
import type { CodeDefinition } from "../../provisions";
import { counted } from "../../statistics/reading";
import { beforeAfterOf, studiedGroups, type BeforeAfter, type BeforeAfterSettings } from "../before-after";
import type { ProposedChange } from "../proposal";
import { groupReliability, groupStandings, type GroupReliabilitySettings, type GroupStanding } from "../standing";
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
  /** Safety: the least characteristic ratio of the groups, share of single tests below the capacity, least reliability index. */
  readonly leastCharacteristic: number | null;
  readonly leastGroup: string | null;
  readonly shareUnsafe: number | null;
  readonly leastIndex: number | null;
  readonly short: readonly string[];
  readonly penalised: readonly string[];
  /** Economy: mean test/predicted over the tests, and mean predicted/test, the share of the strength that may be used. */
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
  /** Which groups count; those that any alternative changes when left out. */
  readonly judged?: (by: GroupStanding["by"]) => boolean;
}

/**
 * Compares alternatives on the same tests and the same groups: those that any of them changes, so that a group none
 * touches decides nothing. An alternative is dominated when another is no worse in the least characteristic ratio, the
 * share unsafe, the least index, the strength used and the numbers to look up, and better in one of them.
 *
 * @throws Error for two alternatives of one name, or a proposal that the code cannot take
 * @example compareAlternatives(tests, code("aci318-19"), usualAlternatives(found), ["mode", "bar_material"])
 */
export function compareAlternatives(tests: TestTable, code: CodeDefinition, alternatives: readonly Alternative[], by: readonly string[], settings: AlternativesSettings = {}): AlternativeOutcome[] {
  const twice = alternatives.find(({ label }, k) => alternatives.findIndex((one) => one.label === label) !== k);
  if (twice) throw new Error(`Two alternatives are named "${twice.label}"; expected a name of its own for each.`);
  const present = studiedGroups(tests, code, by, settings);
  const changes = alternatives.map(({ proposals }) => beforeAfterOf(tests, code, proposals, by, settings, present));
  const touched = new Set(changes.flatMap(({ groups }) => groups.filter(({ before, after }) => before.mean !== after.mean || before.n !== after.n).map(({ label }) => label)));
  const judged = (group: BeforeAfter["groups"][number]): boolean => (settings.judged ? settings.judged(group.by) : touched.has(group.label));
  const reliability = groupReliability(tests, code, settings.reliability);
  const bare = alternatives.map((one, k) => outcomeOf(one, groupStandings({ ...(changes[k] as BeforeAfter), groups: (changes[k]?.groups ?? []).filter(judged) }, reliability), (changes[k]?.groups ?? []).filter(judged)));
  return bare.map((one) => {
    const better = bare.find((other) => dominates(other, one));
    return { ...one, dominatedBy: better?.label ?? null, reading: readingOf(one, better?.label ?? null) };
  });
}

type Bare = Omit<AlternativeOutcome, "dominatedBy" | "reading">;

function outcomeOf({ label, proposals }: Alternative, standings: readonly GroupStanding[], groups: BeforeAfter["groups"]): Bare {
  const told = standings.flatMap((one) => (one.after.characteristic === null ? [] : [{ label: one.label, value: one.after.characteristic }]));
  const least = told.reduce<{ label: string; value: number } | null>((low, one) => (low === null || one.value < low.value ? one : low), null);
  const values = groups.flatMap(({ after }) => after.evidence.filter(({ bound }) => !bound).map(({ ratio }) => ratio));
  const mean = (list: readonly number[]): number | null => (list.length === 0 ? null : list.reduce((sum, one) => sum + one, 0) / list.length);
  const indices = standings.flatMap(({ after }) => (after.leastIndex === null ? [] : [after.leastIndex]));
  return {
    label, proposals, standings, simplicity: ruleSimplicity(proposals),
    leastCharacteristic: least?.value ?? null, leastGroup: least?.label ?? null, shareUnsafe: mean(values.map((ratio) => (ratio < 1 ? 1 : 0))), leastIndex: indices.length === 0 ? null : Math.min(...indices),
    short: standings.filter(({ standing }) => standing === "still short").map((one) => one.label), penalised: standings.filter(({ standing }) => standing === "penalised").map((one) => one.label),
    meanRatio: mean(values), usedStrength: mean(values.map((ratio) => 1 / ratio)),
  };
}

/** Larger is better in each; what cannot be told is worst. */
function merits(one: Bare): number[] {
  const orWorst = (value: number | null): number => value ?? -Infinity;
  return [orWorst(one.leastCharacteristic), one.shareUnsafe === null ? -Infinity : -one.shareUnsafe, orWorst(one.leastIndex), orWorst(one.usedStrength), -one.simplicity.lookUps];
}

function dominates(better: Bare, worse: Bare): boolean {
  if (better === worse) return false;
  const [a, b] = [merits(better), merits(worse)];
  const noise = 1e-9;
  return a.every((value, k) => value === (b[k] ?? NaN) || value >= (b[k] ?? NaN) - noise) && a.some((value, k) => value > (b[k] ?? NaN) + noise);
}

function readingOf(one: Bare, dominatedBy: string | null): string {
  const safe = one.leastCharacteristic === null ? "the least characteristic ratio cannot be told" : `the least characteristic ratio is ${one.leastCharacteristic.toFixed(3)} (${one.leastGroup ?? ""})`;
  const short = one.short.length === 0 ? "no group falls short" : `${counted(one.short.length, "group")} ${one.short.length === 1 ? "falls" : "fall"} short`;
  const { numbers, conditions } = one.simplicity;
  return `${one.label}: ${safe}, ${short}, ${one.penalised.length} ${one.penalised.length === 1 ? "is" : "are"} penalised; the mean ratio is ${one.meanRatio?.toFixed(2) ?? "cannot tell"}; ${counted(numbers, "number")} and ${counted(conditions, "condition")} to look up${dominatedBy === null ? "" : `; dominated by "${dominatedBy}"`}.`;
}
