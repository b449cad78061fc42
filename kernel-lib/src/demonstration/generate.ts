import type { Grip, TestRowInput } from "../dataset";
import { createRandom } from "../statistics/random";
import { plannedCampaign, type PlannedSeries } from "./campaign";
import { gripOfSeries, withGrip } from "./grips";
import { TRUTH } from "./truth";
import type { Demonstration } from "./demonstration";
import { testsOfSeries } from "./tests-of-series";
import { competingModes } from "./competing-modes";
import { specimenOf } from "./planned-specimen";
import { exclude } from "./mishaps";
import { invented, LABORATORIES } from "./laboratories";

/**
 * Generates the invented campaign: bars bonded into an old breakwater wall to carry a new parapet,
 * tested by two invented laboratories. Each specimen's load is the least of independently scattered
 * capacities of its possible modes, and its failure mode is the one that gave the least; so every
 * other mode is only known to be stronger (right-censored). The same seed gives the same rows.
 * Another plan of as many series keeps every draw: without poor grips the same specimens show what
 * they would have carried in a better one.
 * @example generateDemonstration(2026).tests.length
 */
export function generateDemonstration(
  seed: number | string,
  plan: readonly PlannedSeries[] = plannedCampaign(),
): Demonstration {
  const random = createRandom(seed).fork("breakwater parapet");
  const studyFactor = Math.exp(
    Math.sqrt(Math.log1p(TRUTH.studyCov ** 2)) * random.fork("laboratories").normal(),
  );
  const factors = [studyFactor, 1 / studyFactor] as const;
  const tests: TestRowInput[] = [];
  const turn = new Map<string, number>();
  // A stream of its own: grips are drawn without moving any other value.
  const grips = createRandom(seed).fork("grips");
  const gripOf = new Map<string, Grip | null>();
  for (const [index, series] of plan.entries()) {
    // Laboratories take turns within each set-up and kind of bar, so that both meet every mode.
    const group = `${series.setup} ${String(series.kind)}`;
    const count = turn.get(group) ?? series.kind % 2;
    turn.set(group, count + 1);
    const own = testsOfSeries(
      series,
      index,
      count % 2 === 0 ? 0 : 1,
      factors,
      random.fork(`series ${String(index + 1)}`),
    );
    tests.push(...own);
    if (own[0])
      gripOf.set(
        own[0].series_id,
        gripOfSeries(
          series,
          competingModes(series, specimenOf(series, own[0].concrete_strength_MPa)),
          grips.fork(`series ${String(index + 1)}`),
        ),
      );
  }
  const excludedNotes = exclude(tests, random.fork("mishaps"));
  const gripped = tests.map((test) => withGrip(test, gripOf.get(test.series_id) ?? null));
  return {
    seed,
    tests: gripped,
    studies: invented(),
    truth: TRUTH,
    studyFactors: {
      [LABORATORIES[0].study_id]: factors[0],
      [LABORATORIES[1].study_id]: factors[1],
    },
    excludedNotes,
  };
}
