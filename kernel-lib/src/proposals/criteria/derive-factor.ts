import {
  capitalised,
  groupRatios,
  type Comparison,
  type Evidence,
  type GroupSettings,
  type RatioGroup,
} from "../../comparison";
import { roundToSafeSide } from "../rounding";
import { groupReliability, type GroupReliability } from "../reliability";
import { asSteel, type AsSteel } from "./as-steel";
import { reasonableChoices, type ReasonableChoices } from "./choices";
import { CRITERIA, type Criterion, type CriterionResult } from "./criterion";
import { fractileCriterion } from "./fractile-criterion";
import { leaveOut, type LeftOut, type LeftOutUnit } from "./left-out";
import { reliabilityCriterion, type ReliabilityTarget } from "./reliability-criterion";

/**
 * A factor of one group by the criterion it is proposed from, with the other criteria beside it.
 */
export interface DerivedFactor {
  readonly label: string;
  readonly by: RatioGroup["by"];
  readonly status: "derived" | "not derived";
  readonly criterion: Criterion;
  readonly criteria: Readonly<Record<Criterion, CriterionResult>>;
  readonly steel: AsSteel;
  /** The factor by the criterion, not rounded. */
  readonly exact: number | null;
  /** Rounded to the safe side, not above 1. */
  readonly rounded: number | null;
  /**
   * Whether the tests show that a factor below 1 is needed: the upper bound by the criterion is
   * below 1.
   */
  readonly supported: boolean;
  readonly n: number;
  readonly lowerBounds: number;
  readonly series: number;
  readonly studies: number;
  /** Without each study and each laboratory in turn. */
  readonly leftOut: readonly LeftOut[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

/** How factors are derived. */
export interface FactorSettings extends Pick<
  GroupSettings,
  "fractile" | "confidence" | "distribution" | "cells"
> {
  /** Default: `as steel` where it can be derived, else `fractile`. */
  readonly criterion?: Criterion;
  readonly reliability?: ReliabilityTarget;
  /** Rounded down to this step; default 0.05. */
  readonly step?: number;
}

/** Derives the factors of the groups of one comparison. */
export class FactorDerivation {
  readonly #comparison: Comparison;
  readonly #settings: FactorSettings;
  readonly #steel: ReadonlyMap<string, readonly Evidence[]>;
  #reliability: GroupReliability | null = null;

  constructor(comparison: Comparison, settings: FactorSettings = {}) {
    [this.#comparison, this.#settings] = [comparison, settings];
    const steel = new Map<string, Evidence[]>();
    for (const one of comparison.evidence) {
      if (comparison.tests.text(one.row, "bar_material") === "steel")
        steel.set(one.mode, [...(steel.get(one.mode) ?? []), one]);
    }
    this.#steel = steel;
  }

  get #question(): { readonly fractile: number; readonly confidence: number } {
    return {
      fractile: this.#settings.fractile ?? 0.05,
      confidence: this.#settings.confidence ?? 0.9,
    };
  }

  /** All three criteria of a group of one mode. */
  criteria(group: RatioGroup): {
    readonly criteria: Readonly<Record<Criterion, CriterionResult>>;
    readonly steel: AsSteel;
  } {
    const steel = this.#asSteel(group, group.evidence);
    this.#reliability ??= groupReliability(this.#comparison.tests, this.#comparison.code);
    const reliability = reliabilityCriterion(
      group,
      this.#reliability.reductionOf(group),
      this.#question.confidence,
      this.#settings.reliability,
    );
    return {
      criteria: { fractile: fractileCriterion(group), "as steel": steel, reliability },
      steel,
    };
  }

  /** The factor of a group by a criterion, with what it rests on. */
  derive(
    group: RatioGroup,
    criterion: Criterion = this.#settings.criterion ?? this.defaultFor(group),
    found: ReturnType<FactorDerivation["criteria"]> = this.criteria(group),
  ): DerivedFactor {
    const { criteria, steel } = found;
    const chosen = criteria[criterion];
    const exact = chosen.factor;
    const rounded =
      exact === null ? null : Math.max(0, Math.min(1, roundToSafeSide(exact, this.#settings.step)));
    const supported = chosen.upper !== null && chosen.upper < 1;
    const leftOut =
      exact === null
        ? []
        : [
            ...this.leaveOut(group, criterion, "study", rounded),
            ...this.leaveOut(group, criterion, "laboratory", rounded),
          ];
    const base = {
      label: group.label,
      by: group.by,
      criterion,
      criteria,
      steel,
      exact,
      rounded,
      supported,
      n: group.n,
      lowerBounds: group.lowerBounds,
      series: group.series,
      studies: group.studies,
      leftOut,
    };
    if (exact === null || rounded === null)
      return {
        ...base,
        status: "not derived",
        warnings: [],
        reading: `${capitalised(group.label)}: no factor. ${capitalised(chosen.basis)}.`,
      };
    return {
      ...base,
      status: "derived",
      warnings: warningsOf(group, chosen, steel, leftOut),
      reading: readingOf(group, chosen, rounded, supported, criteria),
    };
  }

  /** `as steel` where steel allows it, else `fractile`. */
  defaultFor(group: RatioGroup): Criterion {
    return this.#asSteel(group, group.evidence).factor === null ? "fractile" : "as steel";
  }

  /** The factor under every combination of reasonable choices. */
  choices(group: RatioGroup, criterion: Criterion, proposed: number): ReasonableChoices {
    const modes = new Set(group.evidence.map(({ mode }) => mode));
    const steel = [...modes].flatMap((mode) => this.#steel.get(mode) ?? []);
    return reasonableChoices({
      comparison: this.#comparison,
      group,
      steel,
      criterion,
      proposed,
      ...this.#question,
    });
  }

  /** The factor without each series, study or laboratory in turn, judged on what was left out. */
  leaveOut(
    group: RatioGroup,
    criterion: Criterion,
    unit: LeftOutUnit,
    proposed: number | null,
  ): LeftOut[] {
    const derive = (rest: readonly Evidence[], without: ReadonlySet<number>): number | null => {
      if (criterion === "as steel") return this.#asSteel(group, rest, without).factor;
      const again = this.#regrouped(group, rest);
      return again === null ? null : this.#byGroup(again, criterion);
    };
    return leaveOut(this.#comparison, group.evidence, unit, proposed, derive, {
      ...this.#question,
      distribution: group.distribution,
    });
  }

  #byGroup(group: RatioGroup, criterion: Criterion): number | null {
    if (criterion === "fractile") return fractileCriterion(group).factor;
    this.#reliability ??= groupReliability(this.#comparison.tests, this.#comparison.code);
    return reliabilityCriterion(
      group,
      this.#reliability.reductionOf(group),
      this.#question.confidence,
      this.#settings.reliability,
    ).factor;
  }

  #regrouped(group: RatioGroup, rest: readonly Evidence[]): RatioGroup | null {
    const { cells, distribution } = this.#settings;
    return (
      groupRatios({ ...this.#comparison, evidence: rest, notJudged: [] }, Object.keys(group.by), {
        ...this.#question,
        ...(distribution ? { distribution } : {}),
        ...(cells ? { cells } : {}),
      })[0] ?? null
    );
  }

  #asSteel(
    group: RatioGroup,
    evidence: readonly Evidence[],
    without: ReadonlySet<number> = new Set(),
  ): AsSteel {
    const modes = new Set(group.evidence.map(({ mode }) => mode));
    const steel = [...modes]
      .flatMap((mode) => this.#steel.get(mode) ?? [])
      .filter(({ row }) => !without.has(row));
    return asSteel(this.#comparison, evidence, steel, this.#question);
  }
}

function readingOf(
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
        : "the upper bound is not below 1.0: these tests do not show that a reduction is needed";
  return `${capitalised(group.label)}: factor ${rounded.toFixed(2)} by the criterion "${chosen.criterion}" (lower bound ${two(chosen.lower)}, estimate ${two(chosen.estimate)}, upper bound ${two(chosen.upper)}, rounded down; ${chosen.basis}); ${support}. Other criteria: ${others}.`;
}

function warningsOf(
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
    ...(group.studies < 2 ? ["all tests come from one study; another laboratory may differ"] : []),
    ...(group.series < 5
      ? [`only ${group.series} series failed in the mode: the between-series variance is imprecise`]
      : []),
    ...(chosen.criterion === "as steel" && steel.unpaired > 0
      ? [
          `${steel.unpaired} of ${group.n} failures lie in cells without steel and do not enter the factor`,
        ]
      : []),
    ...(chosen.criterion === "as steel" && steel.scatter !== null
      ? [
          `the scatter of steel (${steel.scatter[0].toFixed(2)}) and of FRP (${steel.scatter[1].toFixed(2)}) differs significantly and enters the factor`,
        ]
      : []),
    ...(group.lowerBounds > 0
      ? [
          `${group.lowerBounds} of ${group.n + group.lowerBounds} tests are lower bounds, treated as right-censored`,
        ]
      : []),
  ];
}
