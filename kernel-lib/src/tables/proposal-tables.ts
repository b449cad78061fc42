import { valueWords } from "../comparison";
import { DEMERIT_NOTE, type AlternativeOutcome, type GroupStanding, type PlannedTests, type SimpleRule } from "../proposals";
import type { TableText } from "./comparison-tables";
import { Table } from "./table";

const INDEX_NOTE = "least over the load ratios; lognormal resistance with mean and scatter of a further test of a further series (of the group's tests with fewer than 3 series), scatter of measuring not removed, the code's own strength reduction factor";

/** Where each group stands with a proposal, both sides of every measure. */
export function standingTable(standings: readonly GroupStanding[], text: TableText): Table {
  const by = Object.keys(standings[0]?.by ?? { group: null });
  const steel = standings.some(({ after }) => after.toSteel !== null);
  return new Table({
    ...text, rowKey: by,
    columns: [
      ...by.map((key) => ({ key, title: key.replaceAll("_", " "), kind: "text" as const })),
      { key: "n", title: "n", kind: "integer" }, { key: "n_lower_bounds", title: "lower bounds", kind: "integer" },
      { key: "lower_before", title: "r_k, present", kind: "number", note: "characteristic ratio in general: lower one-sided bound of the 5 % fractile for a further series, series effect included" }, { key: "lower_after", title: "r_k, proposed", kind: "number" },
      { key: "upper_after", title: "upper bound, proposed", kind: "number" },
      { key: "unsafe_before", title: "share unsafe", kind: "number", digits: 2, limit: null }, { key: "unsafe_after", title: "then", kind: "number", digits: 2, limit: null },
      { key: "mean_before", title: "mean", kind: "number" }, { key: "mean_after", title: "then", kind: "number" },
      { key: "index_before", title: "index β", kind: "number", digits: 2, limit: null, note: INDEX_NOTE }, { key: "index_after", title: "then", kind: "number", digits: 2, limit: null },
      { key: "demerit_before", title: "demerit", kind: "integer" }, { key: "demerit_after", title: "then", kind: "integer" },
      ...(steel ? [{ key: "to_steel", title: "to steel", kind: "number" as const, note: "lower bound of the 5 % fractile with the proposal over that of steel with the present provision; at least 1.0: no less than steel has" }] : []),
      { key: "reduced_more", title: "reduced more", kind: "number", digits: 2, limit: null, note: "share by which the factor is lower than the rounded one that the group's own tests require" },
      { key: "verdict", title: "standing", kind: "verdict" },
    ],
    rows: standings.map(({ by: keys, before, after, ...one }) => ({
      ...Object.fromEntries(Object.entries(keys).map(([key, value]) => [key, valueWords(value)])), n: one.n, n_lower_bounds: one.lowerBounds, lower_before: before.lower, lower_after: after.lower, upper_after: after.upper,
      unsafe_before: before.shareUnsafe, unsafe_after: after.shareUnsafe, mean_before: before.meanRatio, mean_after: after.meanRatio, index_before: before.leastIndex, index_after: after.leastIndex,
      demerit_before: wholeScore(before.demerit.score), demerit_after: wholeScore(after.demerit.score), ...(steel ? { to_steel: after.toSteel } : {}), reduced_more: one.reducedMore, verdict: SHORT_WORDS[one.standing] ?? one.standing,
    })),
    notes: [...(text.notes ?? []), DEMERIT_NOTE],
  });
}

/** A verdict stays on one line: the share stands in a column of its own. */
const SHORT_WORDS: Partial<Record<GroupStanding["standing"], string>> = { "reduced more than its own tests require": "meets, reduced more" };

function wholeScore(score: number | null): number | null {
  return score === null ? null : Math.round(score);
}

/** Alternatives by safety, economy and simplicity; dominated ones say by which. */
export function alternativesTable(outcomes: readonly AlternativeOutcome[], text: TableText): Table {
  return new Table({
    ...text, rowKey: ["alternative"],
    columns: [
      { key: "alternative", title: "alternative", kind: "text" },
      { key: "least", title: "lowest r_k", kind: "number" }, { key: "unsafe", title: "share unsafe", kind: "number", digits: 2, limit: null }, { key: "index", title: "least index β", kind: "number", limit: null, note: INDEX_NOTE },
      { key: "short", title: "fall short", kind: "integer" }, { key: "undecided", title: "undecided", kind: "integer" }, { key: "reduced_more", title: "reduced more", kind: "integer", note: "groups whose factor is lower than the rounded one that their own tests require" },
      { key: "mean", title: "mean ratio", kind: "number" }, { key: "used", title: "strength used", kind: "number", note: "mean of predicted / test" },
      { key: "numbers", title: "numbers", kind: "integer", note: "that the factors print, each once a symbol" }, { key: "conditions", title: "conditions", kind: "integer", note: "different ones to be checked" },
      { key: "verdict", title: "finding", kind: "verdict" },
    ],
    rows: outcomes.map((one) => ({
      alternative: one.label, least: one.leastCharacteristic, unsafe: one.shareUnsafe, index: one.leastIndex, short: one.short.length, undecided: one.undecided.length, reduced_more: one.reducedMore.length, mean: one.meanRatio, used: one.usedStrength,
      numbers: one.simplicity.numbers, conditions: one.simplicity.conditions, verdict: `${one.verdict}${one.dominatedBy === null ? "" : `; dominated by "${one.dominatedBy}"`}`,
    })),
  });
}

/** The plan of the next campaign, one line a cell of mode, material and size. */
export function testPlanTable(plan: readonly PlannedTests[], text: TableText): Table {
  return new Table({
    ...text, rowKey: ["mode", "material", "size"],
    columns: [
      { key: "mode", title: "mode", kind: "text" }, { key: "material", title: "material", kind: "text" }, { key: "size", title: "size", kind: "text" },
      { key: "n", title: "n", kind: "integer" }, { key: "n_censored", title: "lower bounds", kind: "integer" }, { key: "present", title: "present", kind: "verdict" },
      { key: "fractile", title: "fitted fractile", kind: "number", note: "of the fitted law itself, from which campaigns are simulated" },
      { key: "further", title: "further tests", kind: "integer" }, { key: "probability", title: "right verdict", kind: "number", digits: 2, limit: null, note: "probability after the further tests" },
      { key: "specimens", title: "specimens", kind: "integer", note: "further tests over the probability that the mode governs, in whole series" },
      { key: "embedment", title: "embedment", kind: "number", unit: "mm" }, { key: "edge", title: "edge 1", kind: "number", unit: "mm", note: "blank: far" }, { key: "group", title: "bars", kind: "text", note: "group of four with its spacing in mm" },
      { key: "governs", title: "mode governs", kind: "number", digits: 2, limit: null }, { key: "rival", title: "else", kind: "text" }, { key: "load", title: "load", kind: "number", unit: "kN" },
      { key: "finding", title: "finding", kind: "verdict" },
    ],
    rows: plan.map(({ cell, settle, specimen, specimens, finding }) => ({
      mode: valueWords(cell.mode), material: valueWords(cell.material), size: cell.size, n: cell.group?.n ?? 0, n_censored: cell.group?.lowerBounds ?? 0, present: cell.group?.verdict ?? "no tests", fractile: settle?.fractile ?? null,
      further: settle?.further ?? null, probability: settle?.probability ?? null, specimens, embedment: specimen?.embedment_mm ?? null, edge: specimen?.edge_1_mm ?? null, group: specimen === null ? null : specimen.bars === 1 ? "1" : `${specimen.bars} at ${specimen.spacing_mm ?? NaN}`, governs: specimen?.probability ?? null,
      rival: specimen && specimen.rivalProbability > 0 ? valueWords(specimen.rival) : null, load: specimen?.load_kN ?? null, finding,
    })),
  });
}

/** Simple rules along a variable with what each gives away. */
export function simpleRulesTable(rules: readonly SimpleRule[], text: TableText): Table {
  return new Table({
    ...text, rowKey: ["rule"],
    columns: [
      { key: "rule", title: "rule", kind: "text" }, { key: "formula", title: "factor", kind: "text" }, { key: "constants", title: "numbers", kind: "integer" },
      { key: "mean_cost", title: "given away, mean", kind: "number", digits: 2, limit: null, note: "share of the permitted capacity over the tests" }, { key: "largest_cost", title: "largest", kind: "number", digits: 2, limit: null }, { key: "at", title: "at", kind: "number" },
    ],
    rows: rules.map((one) => ({ rule: one.kind, formula: one.formula, constants: one.constants, mean_cost: one.meanCost, largest_cost: one.largestCost, at: one.largestCostAt })),
  });
}
