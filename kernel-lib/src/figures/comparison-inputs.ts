import {
  labelWords,
  valueWords,
  type Comparison,
  type Evidence,
  type GripStrengths,
  type ModeComparison,
  type RatioGroup,
  type SeriesComparison,
  type Verdict,
} from "../comparison";
import type { AlternativeOutcome, BeforeAfter } from "../proposals";
import type { BeforeAfterGroup } from "./before-after";
import type { ComparisonInterval } from "./comparison-intervals";
import type { VariableTest } from "./ratio-against-variable";
import type { Candidate } from "./frontier";
import type { FractileGroup, FractileSide } from "./fractiles";
import type { GripShareGroup } from "./grip-shares";
import type { StripGroup } from "./strip-group";
import type { KaplanMeier } from "../statistics";
import type { SurvivalCurve } from "./survival-curves";
import type { PredictedTest } from "./test-against-predicted";

/**
 * The groups of a comparison as strips of `ratioStrip`: fractile, bounds and verdict in general.
 */
export function stripGroupsOf(groups: readonly RatioGroup[]): StripGroup[] {
  return groups.map((group) => ({
    label: group.label,
    tests: group.evidence.map(({ ratio, bound }) => ({ ratio, censored: bound })),
    mean: group.mean ?? NaN,
    meanMinus3Sd: group.meanMinus3Sd ?? NaN,
    fractile: group.fractile ?? NaN,
    lower: group.lower ?? NaN,
    upper: group.upper ?? NaN,
    verdict: group.verdict,
  }));
}

/** Evidence as points of `testAgainstPredicted`, by the classes of a column of the tests. */
export function predictedTestsOf(
  comparison: Comparison,
  column: string,
  evidence: readonly Evidence[] = comparison.evidence,
): PredictedTest[] {
  return evidence.map((one) => ({
    predicted: one.capacity,
    observed: one.load,
    series: valueWords(comparison.tests.text(one.row, column)),
    censored: one.bound,
    label: comparison.tests.text(one.row, "test_id") ?? "",
  }));
}

/** Evidence as points of `ratioAgainstVariable`. */
export function variableTestsOf(
  comparison: Comparison,
  variable: string,
  column: string,
  evidence: readonly Evidence[] = comparison.evidence,
): VariableTest[] {
  return evidence.map((one) => ({
    x: comparison.tests.number(one.row, variable),
    ratio: one.ratio,
    series: valueWords(comparison.tests.text(one.row, column)),
    censored: one.bound,
    label: comparison.tests.text(one.row, "test_id") ?? "",
  }));
}

/**
 * Before and after a proposal as rows of `beforeAfter`: bounds of the fractile and verdicts in
 * general.
 */
export function dumbbellsOf(change: BeforeAfter): BeforeAfterGroup[] {
  return change.groups.map(({ label, before, after }) => ({
    label,
    n: before.n,
    before: before.lower ?? NaN,
    after: after.lower ?? NaN,
    upperBefore: before.upper ?? NaN,
    upperAfter: after.upper ?? NaN,
    verdicts:
      before.verdict === after.verdict
        ? before.verdict
        : `${withCell(before, after)}, then ${withCell(after, before)}`,
  }));
}

/**
 * A verdict, with the cell that decides where another one decides on the other side of a change.
 */
function withCell({ verdict, inGeneral: { cell } }: RatioGroup, other: RatioGroup): string {
  return cell === other.inGeneral.cell || cell === "" ? verdict : `${verdict} (${cell})`;
}

/** The groups of a comparison as rows of `fractiles`: both questions answered. */
export function fractilesOf(groups: readonly RatioGroup[]): FractileGroup[] {
  const side = ({ fractile, lower, upper, verdict }: Verdict): FractileSide => ({
    fractile: fractile ?? NaN,
    lower: lower ?? NaN,
    upper: upper ?? NaN,
    verdict,
  });
  return groups.map(({ label, n, series, asTested, inGeneral }) => ({
    label,
    detail: `n = ${n}, ${series} series`,
    asTested: side(asTested),
    inGeneral: side(inGeneral),
  }));
}

/** Direct comparisons as lines of `comparisonIntervals`. */
export function intervalsOf(
  comparisons: readonly SeriesComparison[],
  level: number = 0.05,
): ComparisonInterval[] {
  return comparisons.map((one) => ({
    label: [
      valueWords(one.other),
      ...Object.entries(one.within).map(([column, value]) => labelWords(column, value)),
    ].join(", "),
    n: [one.nReference, one.nOther],
    estimate: one.ratio ?? NaN,
    lower: one.ratioLower ?? NaN,
    upper: one.ratioUpper ?? NaN,
    finding: findingOf(one, level),
  }));
}

/**
 * Alternatives as candidates of `frontier`: strength used against the least characteristic ratio,
 * filled where none dominates.
 */
export function candidatesOf(outcomes: readonly AlternativeOutcome[]): Candidate[] {
  return outcomes.flatMap((one) =>
    one.usedStrength === null || one.leastCharacteristic === null
      ? []
      : [
          {
            label: one.label,
            economy: one.usedStrength,
            safety: one.leastCharacteristic,
            constants: one.simplicity.lookUps,
            onFrontier: one.dominatedBy === null,
          },
        ],
  );
}

/**
 * Comparisons mode by mode as lines of `comparisonIntervals`; the numbers of tests hold failures
 * and lower bounds.
 */
export function modeIntervalsOf(
  comparisons: readonly ModeComparison[],
  level: number = 0.05,
): ComparisonInterval[] {
  return comparisons.map((one) => ({
    label: [
      ...Object.entries(one.within).map(([column, value]) => labelWords(column, value)),
      valueWords(one.other),
    ].join(", "),
    n: one.failures,
    estimate: one.ratio ?? NaN,
    lower: one.lower ?? NaN,
    upper: one.upper ?? NaN,
    finding: findingOf(one, level),
  }));
}

function findingOf(
  {
    ratio,
    pAdjusted,
  }: {
    readonly ratio: number | null;
    readonly pAdjusted: number | null;
  },
  level: number,
): string {
  return pAdjusted === null
    ? "no comparison"
    : pAdjusted < level
      ? (ratio ?? 1) < 1
        ? "lower"
        : "higher"
      : "no significant difference";
}

/**
 * A product-limit curve as one of `survivalCurves`, with its band where the data give one and a
 * tick at each lower bound.
 */
export function survivalCurveOf(label: string, { steps, n }: KaplanMeier): SurvivalCurve {
  const censored = steps
    .filter((step) => step.censored > 0)
    .flatMap((step) => Array.from({ length: step.censored }, () => step));
  // The curve starts at 1 at the first load and keeps its last height to the last one.
  const start = (steps[0]?.value ?? NaN) * 0.98;
  return {
    label,
    n,
    x: [start, ...steps.map(({ value }) => value)],
    y: [1, ...steps.map(({ survival }) => survival)],
    lower: [1, ...steps.map(({ lower, survival }) => lower ?? survival)],
    upper: [1, ...steps.map(({ upper, survival }) => upper ?? survival)],
    censoredX: censored.map(({ value }) => value),
    censoredY: censored.map(({ survival }) => survival),
  };
}

/** Grips as strips of `gripShares`. */
export function gripShareGroups(strengths: Pick<GripStrengths, "groups">): GripShareGroup[] {
  return strengths.groups.map(({ label, tests, law, reliable }) => ({
    label,
    tests: tests.map(({ value, lowerBound, testId }) => ({
      share: value,
      lowerBound,
      label: testId,
    })),
    median: law?.median ?? NaN,
    reliable: reliable?.share ?? NaN,
  }));
}
