import type { RatioGroup } from "../comparison";
import type { BeforeAfter } from "./before-after";
import { demeritScore, type DemeritScore } from "./demerit-score";
import { reliabilityOverLoadRatio, resistanceStatistics, type LoadModel, type ScatterSource } from "./reliability";

/** One group's safety and economy, as the provision stands or with the proposals. */
export interface GroupScores {
  readonly group: RatioGroup;
  /** Mean ratio: what is above 1 is capacity that the provision does not use. */
  readonly mean: number | null;
  readonly shareBelow1: number | null;
  readonly demerit: DemeritScore;
  /** β at each load ratio with the group's reduction factor; empty where nothing is asked or the group cannot tell it. */
  readonly reliability: readonly { readonly variableShare: number; readonly index: number }[];
  /** The least of them. */
  readonly leastIndex: number | null;
}

/** A group's scores before and after. */
export interface BeforeAfterScores {
  readonly label: string;
  readonly by: RatioGroup["by"];
  readonly before: GroupScores;
  readonly after: GroupScores;
}

/** What the reliability of a group rests on. */
export interface ScoreReliability {
  readonly loads: LoadModel;
  /** φ of the provision a group belongs to; null leaves the group without an index. */
  readonly reductionFactor: (group: RatioGroup) => number | null;
  readonly variableShares?: readonly number[];
  readonly material?: ScatterSource;
  readonly fabrication?: ScatterSource;
  readonly specimenCov?: number;
}

const LEAST_TESTS = 3;

/**
 * Safety and economy of every group before and after: share below 1, mean ratio, demerit score and, when loads and
 * reduction factors are given, the reliability index across load ratios by first-order reliability.
 * @example beforeAfterScores(change, { loads: loadModel("nowak-2003"), reductionFactor: () => 0.65 })
 */
export function beforeAfterScores(change: BeforeAfter, reliability?: ScoreReliability): BeforeAfterScores[] {
  return change.groups.map(({ label, by, before, after }) => ({ label, by, before: scoresOf(before, reliability), after: scoresOf(after, reliability) }));
}

function scoresOf(group: RatioGroup, asked: ScoreReliability | undefined): GroupScores {
  const indices = asked ? indicesOf(group, asked) : [];
  return {
    group, mean: group.mean, shareBelow1: group.shareBelow1, demerit: demeritScore(group.evidence), reliability: indices,
    leastIndex: indices.reduce<number | null>((least, { index }) => (least === null || index < least ? index : least), null),
  };
}

function indicesOf(group: RatioGroup, { loads, reductionFactor, variableShares, material, fabrication, specimenCov }: ScoreReliability): GroupScores["reliability"] {
  const factor = reductionFactor(group);
  const { mean, cov, n } = group;
  // Two tests tell no scatter; one without scatter has no index either.
  if (factor === null || mean === null || cov === null || !(cov > 0) || n < LEAST_TESTS) return [];
  const resistance = resistanceStatistics({ professional: { bias: mean, cov }, ...(material ? { material } : {}), ...(fabrication ? { fabrication } : {}), ...(specimenCov === undefined ? {} : { specimenCov }) });
  return reliabilityOverLoadRatio({ resistance, loads }, factor, variableShares).filter(({ reliability }) => reliability.status === "converged").map(({ variableShare, reliability }) => ({ variableShare, index: reliability.index }));
}
