import { valueWords } from "../comparison";
import {
  DEMERIT_NOTE,
  type AlternativeOutcome,
  type GroupStanding,
  type RulesOfGroup,
  type SimpleRule,
} from "../proposals";
import type { TableText } from "./table-text";
import { Table } from "./table";

const INDEX_NOTE =
  "minimum over the load ratios; lognormal resistance with the mean and scatter of a further test of a further series (of the tests of the group if fewer than 3 series), measurement scatter not removed, strength reduction factor of the code";

/**
 * Where each group stands with a proposal, both sides of every measure.
 * @param indexNote on what the reliability index rests, where it is not the default
 */
export function standingTable(
  standings: readonly GroupStanding[],
  text: TableText,
  indexNote: string = INDEX_NOTE,
): Table {
  const by = Object.keys(standings[0]?.by ?? { group: null });
  const steel = standings.some(({ after }) => after.toSteel !== null);
  return new Table({
    ...text,
    rowKey: by,
    columns: [
      ...by.map((key) => ({ key, title: key.replaceAll("_", " "), kind: "text" as const })),
      { key: "n", title: "n", kind: "integer" },
      { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      {
        key: "lower_before",
        title: "r_k, present",
        kind: "number",
        note: "characteristic ratio in general: lower one-sided bound of the 5 % fractile for a further series, series effect included",
      },
      { key: "lower_after", title: "r_k, proposed", kind: "number" },
      { key: "upper_after", title: "upper bound, proposed", kind: "number" },
      { key: "unsafe_before", title: "share unsafe", kind: "number", digits: 2, limit: null },
      { key: "unsafe_after", title: "then", kind: "number", digits: 2, limit: null },
      { key: "mean_before", title: "mean", kind: "number" },
      { key: "mean_after", title: "then", kind: "number" },
      {
        key: "index_before",
        title: "index β",
        kind: "number",
        digits: 2,
        limit: null,
        note: indexNote,
      },
      { key: "index_after", title: "then", kind: "number", digits: 2, limit: null },
      { key: "demerit_before", title: "demerit", kind: "integer" },
      { key: "demerit_after", title: "then", kind: "integer" },
      ...(steel
        ? [
            {
              key: "to_steel",
              title: "to steel",
              kind: "number" as const,
              note: "ratio of the 5 % fractile with the proposal to that of steel with the present provision, lower bound; 1.0 or more: at least that of steel",
            },
          ]
        : []),
      {
        key: "reduced_more",
        title: "reduced more",
        kind: "number",
        digits: 2,
        limit: null,
        note: "fraction by which the factor is lower than the rounded factor required by the tests of the group",
      },
      { key: "verdict", title: "standing", kind: "verdict" },
    ],
    rows: standings.map(({ by: keys, before, after, ...one }) => ({
      ...Object.fromEntries(Object.entries(keys).map(([key, value]) => [key, valueWords(value)])),
      n: one.n,
      n_lower_bounds: one.lowerBounds,
      lower_before: before.lower,
      lower_after: after.lower,
      upper_after: after.upper,
      unsafe_before: before.shareUnsafe,
      unsafe_after: after.shareUnsafe,
      mean_before: before.meanRatio,
      mean_after: after.meanRatio,
      index_before: before.leastIndex,
      index_after: after.leastIndex,
      demerit_before: wholeScore(before.demerit.score),
      demerit_after: wholeScore(after.demerit.score),
      ...(steel ? { to_steel: after.toSteel } : {}),
      reduced_more: one.reducedMore,
      verdict: SHORT_WORDS[one.standing] ?? one.standing,
    })),
    notes: [...(text.notes ?? []), DEMERIT_NOTE],
  });
}

/** A verdict stays on one line: the share stands in a column of its own. */
const SHORT_WORDS: Partial<Record<GroupStanding["standing"], string>> = {
  "reduced more than its own tests require": "meets, reduced more",
};

function wholeScore(score: number | null): number | null {
  return score === null ? null : Math.round(score);
}

/** Alternatives by safety, economy and simplicity; dominated ones say by which. */
export function alternativesTable(outcomes: readonly AlternativeOutcome[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["alternative"],
    columns: [
      { key: "alternative", title: "alternative", kind: "text" },
      { key: "least", title: "lowest r_k", kind: "number" },
      { key: "unsafe", title: "share unsafe", kind: "number", digits: 2, limit: null },
      { key: "index", title: "least index β", kind: "number", limit: null, note: INDEX_NOTE },
      { key: "short", title: "fall short", kind: "integer" },
      { key: "undecided", title: "undecided", kind: "integer" },
      {
        key: "reduced_more",
        title: "reduced more",
        kind: "integer",
        note: "groups with a factor lower than the rounded factor required by their own tests",
      },
      { key: "mean", title: "mean ratio", kind: "number" },
      { key: "used", title: "strength used", kind: "number", note: "mean of predicted / test" },
      {
        key: "numbers",
        title: "numbers",
        kind: "integer",
        note: "printed in the factors, each counted once per symbol",
      },
      {
        key: "conditions",
        title: "conditions",
        kind: "integer",
        note: "different conditions to be checked",
      },
      { key: "verdict", title: "finding", kind: "verdict" },
    ],
    rows: outcomes.map((one) => ({
      alternative: one.label,
      least: one.leastCharacteristic,
      unsafe: one.shareUnsafe,
      index: one.leastIndex,
      short: one.short.length,
      undecided: one.undecided.length,
      reduced_more: one.reducedMore.length,
      mean: one.meanRatio,
      used: one.usedStrength,
      numbers: one.simplicity.numbers,
      conditions: one.simplicity.conditions,
      verdict: `${one.verdict}${one.dominatedBy === null ? "" : `; dominated by "${one.dominatedBy}"`}`,
    })),
  });
}

/** Simple rules along a variable with what each gives away. */
export function simpleRulesTable(rules: readonly SimpleRule[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["rule"],
    columns: [
      { key: "rule", title: "rule", kind: "text" },
      { key: "formula", title: "factor", kind: "text" },
      { key: "constants", title: "numbers", kind: "integer" },
      {
        key: "mean_cost",
        title: "unused capacity, mean",
        kind: "number",
        digits: 2,
        limit: null,
        note: "fraction of the permitted capacity, over the tests",
      },
      { key: "largest_cost", title: "largest", kind: "number", digits: 2, limit: null },
      { key: "at", title: "at", kind: "number" },
    ],
    rows: rules.map((one) => ({
      rule: one.kind,
      formula: one.formula,
      constants: one.constants,
      mean_cost: one.meanCost,
      largest_cost: one.largestCost,
      at: one.largestCostAt,
    })),
  });
}

/** Simple rules of several groups, one below the other. */
export function rulesOfGroupsTable(found: readonly RulesOfGroup[], text: TableText): Table {
  const { columns } = simpleRulesTable([], text);
  return new Table({
    ...text,
    rowKey: ["group", "rule"],
    columns: [{ key: "group", title: "group", kind: "text" }, ...columns],
    rows: found.flatMap(({ label, rules }) =>
      simpleRulesTable(rules, text).rows.map((row) => ({ group: label, ...row })),
    ),
  });
}
