import type { Comparison, RatioGroup } from "../../comparison";
import { factorForTargetIndex, type TargetFactor } from "./factor-for-target-index";
import {
  groupReliability,
  resistanceOfGroup,
  type GroupReliabilitySettings,
} from "./group-reliability";
import { factoredLoad, loadModel, type LoadModel } from "./load-statistics";
import { lognormalReliabilityIndex, sumOfLoads } from "./lognormal-closed-form";
import {
  designLimitState,
  reliabilityOverLoadRatio,
  type ReliabilityAtLoadRatio,
} from "./reliability-over-load-ratio";
import type { ResistanceStatistics } from "./resistance-statistics";
import { simulatedReliability } from "./simulated-reliability";
import {
  testBasedResistanceFactor,
  type TestBasedResistanceFactor,
} from "../test-based-resistance-factor";

/** On what the reliability of groups is judged. */
export interface ReliabilityOfGroupsSettings extends GroupReliabilitySettings {
  /** Target index; default 3.5, usual for anchors (common practice, no source). */
  readonly target?: number;
  /** Strength reduction; default that of the code for each group. */
  readonly strengthReduction?: number;
}

/** The reliability of one group, or why it has none. */
export interface ReliabilityOfGroup {
  readonly label: string;
  readonly n: number;
  readonly lowerBounds: number;
  readonly loads: LoadModel;
  /** Strength reduction that the index is for; null where the code states none. */
  readonly phi: number | null;
  readonly resistance: ResistanceStatistics | null;
  /** The test-based strength reduction, and that of a small sample of the same mean and scatter. */
  readonly testBased: TestBasedResistanceFactor | null;
  readonly ofSmallSample: TestBasedResistanceFactor | null;
  /** At the shares of variable load looked at. */
  readonly overShares: readonly ReliabilityAtLoadRatio[];
  readonly least: ReliabilityAtLoadRatio | null;
  /** The strength reduction for the target. */
  readonly forTarget: TargetFactor | null;
  readonly reading: string;
}

const FEWEST = 3;

/** Tests of the small sample that the test-based form is shown for. */
export const SMALL_SAMPLE = 6;

/**
 * The reliability index of groups of nominal ratios with the code's own strength reduction, and the
 * strength reduction that a target index requires. Resistance over nominal is log-normal with mean
 * and coefficient of variation of the tests that the settings name (`scatterOf`); scatter of material and fabrication beyond that in the tests is added, that of
 * measurement taken out, where stated.
 *
 * Limits: the moments are estimates, the index does not hold their uncertainty; fewer than 3
 * failures give none.
 * @throws RangeError for a target outside 0 to 8
 * @example reliabilityOfGroups(comparison, groups, { target: 3.5 }).map(({ reading }) => reading)
 */
export function reliabilityOfGroups(
  comparison: Comparison,
  groups: readonly RatioGroup[],
  settings: ReliabilityOfGroupsSettings = {},
): ReliabilityOfGroup[] {
  const { target = 3.5, loads = loadModel("nowak-2003"), variableShares } = settings;
  const reliability = groupReliability(comparison.tests, comparison.code, settings);
  return groups.map((group): ReliabilityOfGroup => {
    const { label, n, lowerBounds } = group;
    const phi = settings.strengthReduction ?? reliability.reductionOf(group);
    const base = { label, n, lowerBounds, loads, phi };
    const resistance = resistanceOfGroup(group, settings);
    if (resistance === null)
      return {
        ...base,
        resistance,
        testBased: null,
        ofSmallSample: null,
        overShares: [],
        least: null,
        forTarget: null,
        reading: `${label}: no reliability index; ${n} failures; at least ${FEWEST} with scatter are needed.`,
      };
    const forTarget = factorForTargetIndex({
      resistance,
      loads,
      targetIndex: target,
      n,
      ...(variableShares ? { variableShares } : {}),
    });
    const overShares =
      phi === null ? [] : reliabilityOverLoadRatio({ resistance, loads }, phi, variableShares);
    const least = overShares.reduce<ReliabilityAtLoadRatio | null>(
      (low, one) => (low === null || one.reliability.index < low.reliability.index ? one : low),
      null,
    );
    const index =
      least === null
        ? `the code states no strength reduction`
        : `least index ${least.reliability.index.toFixed(2)} with a strength reduction of ${phi!.toFixed(2)} at ${Math.round(100 * least.variableShare)} % live load, ${least.reliability.index >= target ? "not below" : "below"} the target of ${target}`;
    return {
      ...base,
      resistance,
      ...testBasedOf(group, resistance, target),
      overShares,
      least,
      forTarget,
      reading: `${label}: ${index}. ${forTarget.factor === null ? forTarget.reading : `A strength reduction of ${forTarget.factor.toFixed(3)} gives an index of ${target} at the least favorable load ratio.`}`,
    };
  });
}

/** The test-based form takes failures only: it knows no lower bounds. */
function testBasedOf(
  { evidence }: RatioGroup,
  { material, fabrication }: ResistanceStatistics,
  targetIndex: number,
): Pick<ReliabilityOfGroup, "testBased" | "ofSmallSample"> {
  const ratios = evidence.filter(({ bound }) => !bound).map(({ ratio }) => ratio);
  const shared = { targetIndex, materialCov: material.cov, fabricationCov: fabrication.cov };
  const testBased = testBasedResistanceFactor({ ...shared, ratios });
  const { professionalMean, professionalCov } = testBased;
  if (professionalMean === null || professionalCov === null || ratios.length < SMALL_SAMPLE)
    return { testBased, ofSmallSample: null };
  const ofSmallSample = testBasedResistanceFactor({
    ...shared,
    ratios: ratios.slice(0, SMALL_SAMPLE),
    professionalMean,
    professionalCov,
  });
  return { testBased, ofSmallSample };
}

/** The index of one group at one load ratio by one method. */
export interface IndexByMethod {
  readonly label: string;
  readonly method: string;
  readonly index: number | null;
  /** 95 % interval of a simulation. */
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * The index by the log-normal closed form, by first order, by importance sampling and by crude
 * sampling: what the choice of method changes.
 * @param settings share: L/(D + L); crude: samples of the crude method, which is left out where 0
 * @example indexByMethod(reliabilityOfGroups(comparison, groups), { share: 0.5, samples: 2000, crude: 0, seed: 1 })
 */
export function indexByMethod(
  found: readonly ReliabilityOfGroup[],
  settings: {
    readonly share: number;
    readonly samples: number;
    readonly crude?: number;
    readonly seed: number | string;
  },
): IndexByMethod[] {
  const { share, samples, crude = 0, seed } = settings;
  return found.flatMap(({ label, phi, resistance, loads }): IndexByMethod[] => {
    if (phi === null || resistance === null) return [];
    const { dead, variable } = loads;
    const load = sumOfLoads([
      { mean: dead.meanOverNominal * (1 - share), cov: dead.cov },
      { mean: variable.live.meanOverNominal * share, cov: variable.live.cov },
    ]);
    const closed = lognormalReliabilityIndex({
      resistanceMean: (resistance.bias * factoredLoad(1 - share, share)) / phi,
      resistanceCov: resistance.cov,
      loadMean: load.mean,
      loadCov: load.cov,
    });
    const [first] = reliabilityOverLoadRatio({ resistance, loads }, phi, [share]);
    const state = designLimitState({ resistance, loads }, phi, share);
    const sampled = [
      ["importance", samples] as const,
      ...(crude > 0 ? [["crude", crude] as const] : []),
    ].map(([sampling, drawn]) => {
      const found = simulatedReliability(state, {
        samples: drawn,
        sampling,
        seed: `${seed} ${label}`,
      });
      const { index, lower, upper } = found;
      const method = `${sampling} sampling, ${drawn.toLocaleString("en-US")}`;
      return { label, method, index, lower, upper };
    });
    const none = { lower: null, upper: null };
    return [
      { label, method: "log-normal closed form", index: closed, ...none },
      { label, method: "first order", index: first!.reliability.index, ...none },
      ...sampled,
    ];
  });
}
