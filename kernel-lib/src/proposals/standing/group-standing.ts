import { capitalised, type RatioGroup, type VerdictWord } from "../../comparison";
import type { BeforeAfter, BeforeAfterGroup } from "../before-after";
import type { DerivedFactor } from "../criteria";
import { fractileCriterion } from "../criteria/fractile-criterion";
import { demeritScore, type DemeritScore } from "../demerit-score";
import { roundToSafeSide } from "../rounding";
import type { GroupReliability } from "../reliability";

/**
 * What a proposal does to a group: its verdict in general with the proposal, beside that with the
 * present provision.
 */
export type Standing =
  VerdictWord | "now meets" | "still falls short" | "reduced more than its own tests require";

/** One side of a group's standing. */
export interface StandingSide {
  /** 5 % fractile in general with its bounds; null where they cannot be estimated. */
  readonly fractile: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** Share of single tests below the capacity. */
  readonly shareUnsafe: number | null;
  /** Mean test/predicted: what lies above 1 is capacity that is not used. */
  readonly meanRatio: number | null;
  /** Index at each share of variable load, and the least; null where it cannot be estimated. */
  readonly indices: readonly { readonly variableShare: number; readonly index: number }[] | null;
  readonly leastIndex: number | null;
  /** Penalty points by ranges of the ratio; see `DEMERIT_NOTE` for what they say and what not. */
  readonly demerit: DemeritScore;
  readonly verdict: VerdictWord;
  /** The cell that decides; empty where the group is one cell. */
  readonly cell: string;
  /**
   * Lower bound of the 5 % fractile over that of steel under the present provision; null without
   * such a comparison.
   */
  readonly toSteel: number | null;
}

/** A group before and after a proposal, and what that means for it. */
export interface GroupStanding {
  readonly label: string;
  readonly by: BeforeAfterGroup["by"];
  readonly n: number;
  readonly lowerBounds: number;
  readonly before: StandingSide;
  readonly after: StandingSide;
  readonly standing: Standing;
  /** Mean factor that the proposal puts on the group's capacity; 1 where it is not changed. */
  readonly applied: number;
  /**
   * Share by which that factor is lower than the rounded one its own tests require; null where they
   * give none.
   */
  readonly reducedMore: number | null;
  readonly reading: string;
}

/** What standings are told beside the change. */
export interface StandingSettings {
  /**
   * Factors of the groups: what its own tests require is then the factor by the criterion of the
   * case, not by the fractile.
   */
  readonly factors?: readonly DerivedFactor[];
  /** Step of rounding; 0.05 by default. */
  readonly step?: number;
}

/**
 * Where each group stands with a proposal: whether it now meets, still falls short or is undecided,
 * and whether it is reduced more than its own tests require (their factor, rounded to the same
 * step), because another group of the same rule requires a lower one.
 * @param reliability adds the index across load ratios
 * @example
 * groupStandings(change, groupReliability(tests, change.present), { factors: found.factors }).map(({ reading }) => reading)
 */
export function groupStandings(
  change: BeforeAfter,
  reliability?: GroupReliability,
  { factors = [], step = 0.05 }: StandingSettings = {},
): GroupStanding[] {
  const derived = new Map(factors.map((one) => [one.label, one]));
  return change.groups.map((group) => {
    const applied = appliedFactor(group);
    const own = derived.get(group.label);
    const steel = own?.criteria["as steel"].lower ?? null;
    const [before, after] = [
      sideOf(group.before, reliability, steel),
      sideOf(group.after, reliability, steel === null ? null : steel / applied),
    ];
    const required =
      own === undefined ? roundedOf(fractileCriterion(group.before).factor, step) : own.rounded;
    const reducedMore =
      required === null || !(required > 0) ? null : Math.max(0, 1 - applied / required);
    const standing = standingOf(before, after, reducedMore);
    const found = {
      label: group.label,
      by: group.by,
      n: group.before.n,
      lowerBounds: group.before.lowerBounds,
      before,
      after,
      standing,
      applied,
      reducedMore,
    };
    return { ...found, reading: readingOf(found) };
  });
}

function roundedOf(factor: number | null, step: number): number | null {
  if (factor === null) return null;
  const rounded = Math.min(1, roundToSafeSide(factor, step));
  return rounded > 0 ? rounded : null;
}

function sideOf(
  group: RatioGroup,
  reliability: GroupReliability | undefined,
  toSteel: number | null,
): StandingSide {
  const indices = reliability?.indexOf(group) ?? null;
  const { fractile, lower, upper, shareBelow1, mean, verdict } = group;
  return {
    fractile,
    lower,
    upper,
    shareUnsafe: shareBelow1,
    meanRatio: mean,
    indices,
    leastIndex: indices === null ? null : Math.min(...indices.map(({ index }) => index)),
    demerit: demeritScore(group.evidence),
    verdict,
    cell: group.inGeneral.cell,
    toSteel,
  };
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

/** Below this share a factor is as its tests require: products of decimals are not exact. */
const SAME = 1e-9;

function standingOf(
  before: StandingSide,
  after: StandingSide,
  reducedMore: number | null,
): Standing {
  if (after.verdict === "falls short")
    return before.verdict === "falls short" ? "still falls short" : "falls short";
  if (after.verdict !== "meets") return after.verdict;
  if (reducedMore !== null && reducedMore > SAME) return "reduced more than its own tests require";
  return before.verdict === "meets" ? "meets" : "now meets";
}

function readingOf({
  label,
  before,
  after,
  standing,
  applied,
  reducedMore,
}: Omit<GroupStanding, "reading">): string {
  const change = (from: number | null, to: number | null, digits: number): string =>
    `${from?.toFixed(digits) ?? "–"}, then ${to?.toFixed(digits) ?? "–"}`;
  const share = (value: number | null): string =>
    value === null ? "–" : `${(100 * value).toFixed(0)} %`;
  const more =
    reducedMore === null || reducedMore <= SAME
      ? ""
      : `, reduced ${share(reducedMore)} more than its own tests require`;
  const verdict =
    standing === "reduced more than its own tests require"
      ? before.verdict === "meets"
        ? "meets"
        : "now meets"
      : standing;
  const facts = [
    ...(applied === 1 ? [] : [`factor ${applied.toFixed(2)}`]),
    `r_k ${change(before.lower, after.lower, 3)}${before.cell === after.cell ? "" : ` (decided by ${before.cell || "all tests"}, then by ${after.cell || "all tests"})`}`,
    `upper bound ${change(before.upper, after.upper, 3)}`,
    `tests below the capacity ${share(before.shareUnsafe)}, then ${share(after.shareUnsafe)}`,
    `mean ratio ${change(before.meanRatio, after.meanRatio, 2)}`,
    ...(before.leastIndex === null || after.leastIndex === null
      ? []
      : [`minimum reliability index ${change(before.leastIndex, after.leastIndex, 1)}`]),
    ...(after.toSteel === null
      ? []
      : [
          `ratio of the 5 % fractile to that of steel, lower bound ${change(before.toSteel, after.toSteel, 2)}: ${after.toSteel >= 1 ? "at least" : "not shown to be at least"} that of steel`,
        ]),
  ];
  return `${capitalised(label)}, in general: ${verdict}${more} (${facts.join("; ")}).`;
}
