import type { RatioGroup } from "../../comparison";
import type { Criterion, CriterionResult, FactorDerivation } from "../criteria";
import type { ProposedChange } from "../proposal";
import type { GroupReliability } from "../reliability";
import type { SheetClass } from "./sheet";

/** What all classes of a sheet are told. */
export interface ClassTold {
  readonly derivation: FactorDerivation;
  readonly reliability: GroupReliability;
  readonly factorOf: ReadonlyMap<number, number>;
  readonly criterion: Criterion;
  readonly own: readonly ProposedChange[];
}

/**
 * One class of bars of a sheet from its groups before and after; either may be missing, for a new
 * provision and for one withdrawn.
 */
export function sheetClass(
  before: RatioGroup | null,
  after: RatioGroup | null,
  { derivation, reliability, factorOf, criterion, own }: ClassTold,
): SheetClass {
  const group = (before ?? after)!;
  const steel = group.by["bar_material"] === "steel";
  const { criteria } = derivation.criteria(group);
  const factors = eachCriterion(criteria, steel);
  const applied = group.evidence.flatMap(({ row }) => {
    const factor = factorOf.get(row);
    return factor === undefined || Number.isNaN(factor) ? [] : [factor];
  });
  const constant = own.every((one) => !("factor" in one) || Number.isFinite(Number(one.factor)));
  const proposed = applied.length === 0 ? null : Math.min(...applied);
  const upper = criteria[criterion].upper;
  const parts =
    steel || proposed === null
      ? []
      : derivation.leaveOut(group, criterion, "study", constant ? proposed : Math.max(...applied));
  const worst = parts.reduce<(typeof parts)[number] | null>(
    (low, one) => (one.factor === null || (low !== null && low.factor! <= one.factor) ? low : one),
    null,
  );
  const { label, n, lowerBounds, series, studies } = group;
  return {
    label,
    steel,
    n,
    lowerBounds,
    series,
    studies,
    verdict: group.verdict,
    asTested: group.asTested.verdict,
    estimate: group.fractile,
    lower: group.lower,
    upper: group.upper,
    lowerAfter: after?.lower ?? null,
    verdictAfter: after?.verdict ?? null,
    factors,
    criterion,
    reductionShown: upper !== null && upper < 1,
    applied: proposed === null ? null : { least: proposed, most: Math.max(...applied) },
    withoutWorst:
      worst === null
        ? null
        : { left: worst.left, factor: worst.factor!, adequate: worst.adequate !== false },
    indexBefore: before === null ? null : leastIndex(reliability, before),
    indexAfter: after === null ? null : leastIndex(reliability, after),
    phi: reliability.reductionOf(group),
    usedBefore: before === null ? null : used(before),
    usedAfter: after === null ? null : used(after),
    belowBefore: before?.shareBelow1 ?? null,
    belowAfter: after?.shareBelow1 ?? null,
  };
}

function eachCriterion(
  criteria: Readonly<Record<Criterion, CriterionResult>>,
  steel: boolean,
): SheetClass["factors"] {
  const of = (name: Criterion): number | null => {
    const { factor } = criteria[name];
    return steel ? null : factor;
  };
  return {
    fractile: of("fractile"),
    "as steel": of("as steel"),
    reliability: of("reliability"),
  };
}

function leastIndex(reliability: GroupReliability, group: RatioGroup): number | null {
  const found = reliability.indexOf(group);
  return found === null ? null : Math.min(...found.map(({ index }) => index));
}

/** Mean predicted/test of the failures: the share of the strength that is used. */
export function used({ evidence }: RatioGroup): number | null {
  const failures = evidence.filter(({ bound }) => !bound);
  return failures.length === 0
    ? null
    : failures.reduce((sum, { ratio }) => sum + 1 / ratio, 0) / failures.length;
}
