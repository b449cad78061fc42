import type { Criterion, CriterionResult, DerivedFactor } from "../../proposals";

/** The factor of one group by three criteria; null where a criterion gives none. */
export interface Factor {
  readonly label: string;
  /** The criterion that the factor is proposed from. */
  readonly criterion: Criterion;
  /** The factor by that criterion, not rounded: its lower bound. */
  readonly value: number | null;
  /** Rounded down and not above 1. */
  readonly proposed: number | null;
  readonly estimate: Readonly<Record<Criterion, number | null>>;
  readonly lower: Readonly<Record<Criterion, number | null>>;
  readonly upper: Readonly<Record<Criterion, number | null>>;
  /** Whether the tests show that a reduction is needed: the upper bound is below 1. */
  readonly supported: boolean;
  /** Least value without any one study; null with one study or too few tests without it. */
  readonly withoutWorstStudy: number | null;
  readonly warnings: readonly string[];
  /** What the factor rests on, or why there is none. */
  readonly reason: string;
}

/** A derived factor as notebooks read it. */
export function factorOf(derived: DerivedFactor): Factor {
  const { label, criterion, criteria, exact, rounded, supported, warnings, reading } = derived;
  const each = (key: "estimate" | "lower" | "upper"): Factor["estimate"] => ({
    fractile: criteria.fractile[key],
    "as steel": criteria["as steel"][key],
    reliability: criteria.reliability[key],
  });
  const without = derived.leftOut.flatMap(({ unit, factor }) =>
    unit === "study" && factor !== null ? [factor] : [],
  );
  return {
    label,
    criterion,
    value: exact,
    proposed: rounded,
    estimate: each("estimate"),
    lower: each("lower"),
    upper: each("upper"),
    supported,
    withoutWorstStudy: without.length === 0 ? null : Math.min(...without),
    warnings,
    reason: reading,
  };
}

/** The factor of a group without tests, or of steel. */
export function noFactor(label: string, reason: string): Factor {
  const none = { fractile: null, "as steel": null, reliability: null };
  return {
    label,
    criterion: "fractile",
    value: null,
    proposed: null,
    estimate: none,
    lower: none,
    upper: none,
    supported: false,
    withoutWorstStudy: null,
    warnings: [reason],
    reason,
  };
}

/** The criteria of a factor that give a number, for figures. */
export function criteriaWithNumbers({ criteria }: DerivedFactor): readonly CriterionResult[] {
  return Object.values(criteria).filter(({ estimate }) => estimate !== null);
}
