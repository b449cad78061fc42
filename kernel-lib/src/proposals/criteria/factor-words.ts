import { capitalised, type RatioGroup } from "../../comparison";
import type { AsSteel } from "./steel-question";
import { CRITERIA, type Criterion, type CriterionResult } from "./criterion";
import type { LeftOut } from "./left-out";

/** What a factor rests on, in one sentence. */
export function readingOf(
  group: RatioGroup,
  chosen: CriterionResult,
  rounded: number,
  supported: boolean,
  criteria: Readonly<Record<Criterion, CriterionResult>>,
): string {
  const two = (value: number | null): string => value?.toFixed(3) ?? "none";
  const others = CRITERIA.filter((name) => name !== chosen.criterion)
    .map((name) => `${name} ${two(criteria[name].factor)}`)
    .join(", ");
  const support =
    rounded >= 1
      ? "no factor below 1.0 is needed"
      : supported
        ? "the upper bound is below 1.0: the reduction is supported by these tests"
        : "the upper bound is at least 1.0: these tests do not show that a reduction is needed";
  return `${capitalised(group.label)}: factor ${rounded.toFixed(2)} by the criterion "${chosen.criterion}" (lower bound ${two(chosen.lower)}, estimate ${two(chosen.estimate)}, upper bound ${two(chosen.upper)}, rounded down; ${chosen.basis}); ${support}. Other criteria: ${others}.`;
}

/** What weakens a factor. */
export function warningsOf(
  group: RatioGroup,
  chosen: CriterionResult,
  steel: AsSteel,
  leftOut: readonly LeftOut[],
): string[] {
  return [
    ...leftOut
      .filter(({ adequate }) => adequate === false)
      .map(
        ({ unit, left, factor }) =>
          `without ${unit} ${left} the remaining tests require ${factor!.toFixed(2)}, less than the rounded factor`,
      ),
    ...leftOut
      .filter(({ factor }) => factor === null)
      .map(({ unit, left }) => `without ${unit} ${left} too few tests remain to derive a factor`),
    ...(group.studies < 2
      ? ["all tests are from one study; results of another laboratory may differ"]
      : []),
    ...(group.series < 5
      ? [`only ${group.series} series failed in the mode: the between-series variance is imprecise`]
      : []),
    ...(chosen.criterion === "as steel" && steel.unpaired > 0
      ? [
          `${steel.unpaired} of ${group.n} failures are in cells without steel and are not used for the factor`,
        ]
      : []),
    ...(chosen.criterion === "as steel" && steel.scatter !== null
      ? [
          `the scatter of steel (${steel.scatter[0].toFixed(2)}) and of FRP (${steel.scatter[1].toFixed(2)}) differs significantly and affects the factor`,
        ]
      : []),
    ...(group.lowerBounds > 0
      ? [
          `${group.lowerBounds} of ${group.n + group.lowerBounds} tests are lower bounds, treated as right-censored`,
        ]
      : []),
  ];
}
