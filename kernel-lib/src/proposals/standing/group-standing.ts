import { capitalised, type RatioGroup } from "../../comparison";
import type { BeforeAfter, BeforeAfterGroup } from "../before-after";
import { demeritScore, type DemeritScore } from "../demerit-score";
import { roundToSafeSide } from "../rounding";
import type { GroupReliability } from "./group-reliability";

/** What a proposal does to a group, in a word. */
export type Standing = "mended" | "still short" | "penalised" | "meets" | "too few tests";

/** One side of a group's standing. */
export interface StandingSide {
  readonly characteristic: number | null;
  /** Share of single tests below the capacity. */
  readonly shareUnsafe: number | null;
  /** Mean test/predicted: what lies above 1 is capacity that is not used. */
  readonly meanRatio: number | null;
  /** Index at each share of variable load, and the least; null where it cannot be told. */
  readonly indices: readonly { readonly variableShare: number; readonly index: number }[] | null;
  readonly leastIndex: number | null;
  /** Penalty points by ranges of the ratio; see `DEMERIT_NOTE` for what they say and what not. */
  readonly demerit: DemeritScore;
  readonly verdict: RatioGroup["verdict"];
}

/** A group before and after a proposal, and what that means for it. */
export interface GroupStanding {
  readonly label: string;
  readonly by: BeforeAfterGroup["by"];
  readonly n: number;
  readonly nCensored: number;
  readonly before: StandingSide;
  readonly after: StandingSide;
  readonly standing: Standing;
  /** Mean factor that the proposal puts on the group's capacity; 1 where it is not changed. */
  readonly applied: number;
  /** Share by which the factor is lower than the rounded one its own tests call for; 0 where they call for as much. */
  readonly takenTooMuch: number | null;
  readonly reading: string;
}

/**
 * Where each group stands with a proposal: still short, mended, or penalised, i.e. held lower than its own tests call
 * for (their characteristic ratio, rounded to the same step), because another group of the same rule needs it.
 * @param reliability adds the index across load ratios
 * @param step of rounding; 0.05 by default
 * @example groupStandings(change, groupReliability(tests, change.present)).map(({ reading }) => reading)
 */
export function groupStandings(change: BeforeAfter, reliability?: GroupReliability, step: number = 0.05): GroupStanding[] {
  return change.groups.map((group) => {
    const [before, after] = [sideOf(group.before, reliability), sideOf(group.after, reliability)];
    const applied = appliedFactor(group);
    const needed = before.characteristic === null ? null : Math.min(1, roundToSafeSide(before.characteristic, step));
    const takenTooMuch = needed === null || !(needed > 0) ? null : Math.max(0, 1 - applied / needed);
    const standing = standingOf(before, after, applied, takenTooMuch);
    return { label: group.label, by: group.by, n: group.before.n, nCensored: group.before.lowerBounds, before, after, standing, applied, takenTooMuch, reading: readingOf(group, standing, before, after, applied, takenTooMuch) };
  });
}

function sideOf(group: RatioGroup, reliability: GroupReliability | undefined): StandingSide {
  const indices = reliability?.indexOf(group) ?? null;
  return { characteristic: group.lower, shareUnsafe: group.shareBelow1, meanRatio: group.mean, indices, leastIndex: indices === null ? null : Math.min(...indices.map(({ index }) => index)), demerit: demeritScore(group.evidence), verdict: group.verdict };
}

/** Geometric mean over the tests of capacity after / capacity before. */
function appliedFactor({ before, after }: BeforeAfterGroup): number {
  const old = new Map(before.evidence.map((one) => [one.row, one.ratio]));
  const logs = after.evidence.flatMap(({ row, ratio }) => {
    const known = old.get(row);
    return known === undefined ? [] : [Math.log(known / ratio)];
  });
  return logs.length === 0 ? 1 : Math.exp(logs.reduce((sum, one) => sum + one, 0) / logs.length);
}

function standingOf(before: StandingSide, after: StandingSide, applied: number, takenTooMuch: number | null): Standing {
  if (after.verdict === "too few tests") return "too few tests";
  if (after.verdict === "falls short") return "still short";
  if (takenTooMuch !== null && takenTooMuch > 1e-9) return "penalised";
  return before.verdict === "falls short" ? "mended" : "meets";
}

function readingOf(group: BeforeAfterGroup, standing: Standing, before: StandingSide, after: StandingSide, applied: number, takenTooMuch: number | null): string {
  const ratio = (value: number | null): string => value?.toFixed(2) ?? "cannot tell";
  const share = (value: number | null): string => (value === null ? "cannot tell" : `${(100 * value).toFixed(0)} %`);
  const index = before.leastIndex === null || after.leastIndex === null ? "" : `; least reliability index ${before.leastIndex.toFixed(1)}, then ${after.leastIndex.toFixed(1)}`;
  const facts = `characteristic ratio ${group.before.lower?.toFixed(3) ?? "cannot tell"}, then ${group.after.lower?.toFixed(3) ?? "cannot tell"}; tests below the capacity ${share(before.shareUnsafe)}, then ${share(after.shareUnsafe)}; mean ratio ${ratio(before.meanRatio)}, then ${ratio(after.meanRatio)}${index}`;
  const words: Readonly<Record<Standing, string>> = {
    mended: "fell short and meets now",
    "still short": applied === 1 ? "falls short and is not changed by the proposal" : "falls short still",
    penalised: `meets, but is penalised: the factor ${applied.toFixed(2)} takes ${share(takenTooMuch)} more than its own tests call for`,
    meets: applied === 1 ? "meets, as before" : "meets",
    "too few tests": "has too few tests to tell",
  };
  return `${capitalised(group.label)} ${words[standing]} (${facts}).`;
}
