import {
  capitalised,
  groupRatios,
  type Comparison,
  type Evidence,
  type RatioGroup,
} from "../../comparison";
import { roundToSafeSide } from "../rounding";
import { groupReliability, type GroupReliability } from "../reliability";
import { asSteel } from "./as-steel";
import type { AsSteel } from "./steel-question";
import { reasonableChoices, type ReasonableChoices } from "./choices";
import type { Criterion, CriterionResult } from "./criterion";
import { fractileCriterion } from "./fractile-criterion";
import { leaveOut, type LeftOut, type LeftOutUnit } from "./left-out";
import { reliabilityCriterion } from "./reliability-criterion";
import type { FactorSettings, DerivedFactor } from "./derived-factor";
import { warningsOf, readingOf } from "./factor-words";

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
    const stepped =
      exact === null ? null : Math.min(1, roundToSafeSide(exact, this.#settings.step));
    // A factor of 0 would leave no capacity: few tests with much scatter support no factor at all.
    const rounded = stepped === null || stepped <= 0 ? null : stepped;
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
        reading: `${capitalised(group.label)}: no factor. ${exact === null ? `${capitalised(reasonOf(group.label, chosen.basis))}.` : `The lower bound of the factor, ${exact.toFixed(2)}, is below the step to which factors are rounded down: these tests scatter too much, or are too few, for a factor.`}`,
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

/** The reason without the label of the group and the full stop that its sentence may have. */
function reasonOf(label: string, basis: string): string {
  const named = basis.toLowerCase().startsWith(`${label.toLowerCase()}: `);
  return (named ? basis.slice(label.length + 2) : basis).replace(/\.$/, "");
}
