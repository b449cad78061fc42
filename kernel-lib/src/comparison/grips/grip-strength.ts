import type { TestTable } from "../../dataset";
import {
  binomialInterval,
  fitCensored,
  kaplanMeier,
  noFailureBound,
  testsNeededForOrderStatistic,
} from "../../statistics";
import { counted } from "../../statistics/reading";
import { valueWords } from "../labels";
import type { GripStrength } from "./grip-result";
import { gripTests, type GripTest, type GripTests } from "./grip-tests";
import { gripWords } from "./grip-words";
import { lognormalLaw, type LawQuestion, type LognormalLaw } from "./lognormal-law";

export interface GripStrengths extends Pick<GripTests, "unused"> {
  readonly groups: readonly GripStrength[];
  readonly fractile: number;
  readonly confidence: number;
}

/**
 * Strength of grips as a share of the bar's strength, by grip and bar.
 *
 * Tests that ended in another way are lower bounds (right-censored). Reliable share: lower
 * one-sided bound of the 5 % fractile (90 % confidence) of a lognormal law with series effect;
 * where no bar broke, the share that 45 tests reached (`noFailureBound`). Beside it the
 * Kaplan-Meier curve and a Weibull law. The rate of breaks is that of these tests: it depends on
 * how far they loaded their bars.
 *
 * Limits: the way a test ended must say nothing of its grip beyond the bound; grips of one kind are
 * taken to be equal whatever their make, length and bar surface, unless `by` separates them.
 * @returns groups in alphabetical order; none where no test names its grip
 * @example gripStrengths(tests).groups.map(({ reading }) => reading)
 */
export function gripStrengths(
  tests: TestTable,
  settings: LawQuestion & { readonly by?: readonly string[] } = {},
): GripStrengths {
  const { by = ["grip", "bar_material"], fractile = 0.05, confidence = 0.9 } = settings;
  const found = gripTests(tests, by);
  const groups = new Map<string, GripTest[]>();
  for (const test of found.tests) {
    const key = JSON.stringify(Object.values(test.by));
    const group = groups.get(key) ?? [];
    groups.set(key, group);
    group.push(test);
  }
  const judged = [...groups.keys()]
    .sort()
    .map((key) => strengthOf(groups.get(key)!, { fractile, confidence }));
  return { groups: judged, unused: found.unused, fractile, confidence };
}

function strengthOf(tests: readonly GripTest[], question: Required<LawQuestion>): GripStrength {
  const values = tests.map(({ value }) => value);
  const censored = tests.map(({ lowerBound }) => lowerBound);
  const broken = tests.filter(({ lowerBound }) => !lowerBound);
  const shares = broken.map(({ value }) => value);
  const bounds = tests.flatMap(({ lowerBound, value }) => (lowerBound ? [value] : []));
  const rate = binomialInterval({ events: broken.length, tests: tests.length });
  if (rate.status !== "ok") throw new RangeError(`a grip without a test: ${rate.needed}`);
  const law = broken.length === 0 ? null : lognormalLaw(tests, question);
  const weibull =
    law === null || typeof law === "string"
      ? null
      : fitCensored({ values, censored, distribution: "weibull" });
  const by = tests[0]!.by;
  const strength = {
    by,
    label: Object.values(by).map(valueWords).join(", "),
    tests,
    broke: broken.length,
    lowerBounds: bounds.length,
    rate,
    series: new Set(broken.map(({ series }) => series)).size,
    lowest: shares.length === 0 ? null : Math.min(...shares),
    highest: shares.length === 0 ? null : Math.max(...shares),
    reached: bounds.length === 0 ? null : Math.max(...bounds),
    survival: kaplanMeier({ values, censored }),
    law: typeof law === "string" ? null : law,
    weibullFractile: weibull?.status === "ok" ? weibull.quantile(question.fractile) : null,
    ...reliableShare(law, bounds, question),
  };
  return { ...strength, reading: gripWords(strength, question) };
}

function reliableShare(
  law: LognormalLaw | string | null,
  bounds: readonly number[],
  question: Required<LawQuestion>,
): Pick<GripStrength, "reliable" | "reason"> {
  // Breaks too few for a law still contradict a run without any.
  if (typeof law === "string")
    return { reliable: null, reason: law.replace("failed in this mode", "broke in the grip") };
  if (law !== null)
    return {
      reliable: { share: law.low.bound, estimate: law.low.estimate, from: "lognormal law" },
      reason: null,
    };
  const run = noFailureBound(bounds, question);
  if (run.status === "ok")
    return {
      reliable: { share: run.value, estimate: null, from: "tests without a break" },
      reason: null,
    };
  const needed = testsNeededForOrderStatistic(question.fractile, question.confidence);
  return {
    reliable: null,
    reason: `no bar broke in ${counted(bounds.length, "test")}; at least ${needed} without a break are needed`,
  };
}
