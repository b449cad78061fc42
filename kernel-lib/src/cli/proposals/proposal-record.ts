import type {
  AlternativeOutcome,
  BeforeAfter,
  DerivedFactor,
  ProposedChange,
} from "../../proposals";
import { groupJson } from "../comparison/group-json";

/** A proposal before and after, as data for JSON. */
export function asRecord(
  proposal: ProposedChange,
  found: BeforeAfter,
  outside: number,
  factors: readonly DerivedFactor[],
  alternatives: readonly AlternativeOutcome[],
): object {
  return {
    proposal,
    groups: found.groups.map(({ by, before, after }) => ({
      by,
      before: groupJson(before),
      after: groupJson(after),
    })),
    now_meet: found.nowMeet,
    still_short: found.stillShort,
    undecided: found.undecided,
    withdrawn: found.withdrawn,
    added: found.added,
    tests_outside_limits: outside,
    factors: factors.map(
      ({ label, criterion, criteria, exact, rounded, supported, leftOut, warnings }) => ({
        group: label,
        criterion,
        criteria,
        exact,
        rounded,
        supported,
        left_out: leftOut,
        warnings,
      }),
    ),
    ...(alternatives.length === 0
      ? {}
      : {
          alternatives: alternatives.map((one) => ({
            id: one.label,
            lowest_r_k: one.leastCharacteristic,
            share_unsafe: one.shareUnsafe,
            lowest_index: one.leastIndex,
            mean_ratio: one.meanRatio,
            strength_used: one.usedStrength,
            numbers: one.simplicity.numbers,
            conditions: one.simplicity.conditions,
            verdict: one.verdict,
            short: one.short,
            undecided: one.undecided,
            reduced_more: one.reducedMore,
            dominated_by: one.dominatedBy,
          })),
        }),
  };
}
