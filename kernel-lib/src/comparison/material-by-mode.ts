import { censoredRegression, RegressionError, type Coefficient } from "../regression";
import { adjustPValues, cannotTell, logRank } from "../statistics";
import { differenceReading } from "../statistics/comparison/difference-words";
import { counted } from "../statistics/reading";
import type { Comparison, Evidence } from "./compare";
import { valueWords } from "./labels";

/** Ratios of one mode, one material (or other class) against the reference, lower bounds counted as such. */
export interface ModeComparison {
  readonly mode: string;
  readonly reference: string;
  readonly other: string;
  /** Tests that failed in the mode, and tests that are lower bounds. */
  readonly failures: readonly [reference: number, other: number];
  readonly bounds: readonly [reference: number, other: number];
  /** Typical (median) ratio of the other over that of the reference, with its interval; null where it cannot be told. */
  readonly ratio: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
  /** p after Holm's correction for all comparisons made together. */
  readonly pAdjusted: number | null;
  /** p of the log-rank test, which assumes no distribution but takes tests as independent; null where it cannot be told. */
  readonly pLogRank: number | null;
  readonly reading: string;
}

export interface ModeQuestion {
  /** The column that tells the classes apart, e.g. `bar_material`. */
  readonly column: string;
  readonly reference: string;
  /** Fewest failures on each side; default 3. */
  readonly minimum?: number;
  readonly confidence?: number;
}

/**
 * Compares classes mode by mode on the test-to-predicted ratio, with tests that did not fail in the mode as lower bounds.
 *
 * ln r = a + b·(other) + σ Z by maximum likelihood (right-censored, one scatter for both classes), standard errors by
 * series; exp b is the ratio of the typical ratios. Holm's correction over all comparisons; a comparison that is not told
 * apart is worded with its joint (Bonferroni) interval.
 * @example compareByMode(comparison, { column: "bar_material", reference: "steel" }).map(({ reading }) => reading)
 */
export function compareByMode(comparison: Comparison, question: ModeQuestion): ModeComparison[] {
  const { tests } = comparison;
  const { confidence = 0.95, minimum = 3 } = question;
  const classOf = (one: Evidence): string => tests.text(one.row, question.column) ?? "";
  const modes = [...new Set(comparison.evidence.map(({ mode }) => mode))].sort();
  const pairs = modes.flatMap((mode) => {
    const evidence = comparison.evidence.filter((one) => one.mode === mode && classOf(one) !== "");
    const others = [...new Set(evidence.map(classOf))].filter((name) => name !== question.reference).sort();
    return others.map((other) => ({ mode, other, evidence: evidence.filter((one) => [question.reference, other].includes(classOf(one))) }));
  }).map((pair) => {
    const count = (name: string, bound: boolean): number => pair.evidence.filter((one) => classOf(one) === name && one.bound === bound).length;
    const failures = [count(question.reference, false), count(pair.other, false)] as const;
    const bounds = [count(question.reference, true), count(pair.other, true)] as const;
    return { ...pair, failures, bounds, fit: Math.min(...failures) < minimum ? null : fitOf(comparison, pair.evidence, pair.other, classOf, confidence) };
  });
  const adjusted = adjustPValues(pairs.map(({ fit }) => (typeof fit === "object" && fit !== null ? fit.p ?? NaN : NaN)));
  const comparisons = adjusted.filter((p) => !Number.isNaN(p)).length;
  return pairs.map(({ mode, other, evidence, failures, bounds, fit }, k): ModeComparison => {
    const counts = { mode, reference: question.reference, other, failures, bounds };
    const n = evidence.length;
    const p = adjusted[k]!;
    if (fit === null || typeof fit === "string" || Number.isNaN(p)) {
      const needed = typeof fit === "string" ? fit : `at least ${minimum} failures on each side (there are ${failures[0]} and ${failures[1]})`;
      return { ...counts, ratio: null, lower: null, upper: null, p: null, pAdjusted: null, pLogRank: null, reading: cannotTell(`${valueWords(mode)}, ${valueWords(other)} against ${valueWords(question.reference)}`, "too few failures", needed, n).reading };
    }
    const told = p < 1 - confidence;
    const joint = told || comparisons < 2 ? fit : fitOf(comparison, evidence, other, classOf, 1 - (1 - confidence) / comparisons);
    const shown = typeof joint === "string" ? fit : joint;
    const rank = logRank({ values: evidence.map(({ ratio }) => ratio), censored: evidence.map(({ bound }) => bound), groups: evidence.map(classOf) });
    return {
      ...counts, ratio: Math.exp(fit.estimate), lower: Math.exp(fit.lower), upper: Math.exp(fit.upper), p: fit.p, pAdjusted: p, pLogRank: rank.status === "ok" ? rank.p : null,
      reading: differenceReading({
        quantity: `typical ${valueWords(mode)} ratio`, nameA: valueWords(question.reference), nameB: valueWords(other), difference: shown.estimate, lower: shown.lower, upper: shown.upper,
        ratio: Math.exp(fit.estimate), ratioInterval: { bounded: true, lower: Math.exp(shown.lower), upper: Math.exp(shown.upper) },
        confidence, p, comparisons, joint: !told && comparisons > 1, methodWords: `censored fit by series with ${boundWords(bounds[0] + bounds[1])}`,
      }),
    };
  });
}

function boundWords(count: number): string {
  return count === 0 ? "no lower bound" : counted(count, "lower bound");
}

/** The coefficient of the other class on ln ratio; a text says what is lacking. */
function fitOf(comparison: Comparison, evidence: readonly Evidence[], other: string, classOf: (one: Evidence) => string, confidence: number): Coefficient | string {
  const { tests } = comparison;
  try {
    return censoredRegression({
      y: evidence.map(({ ratio }) => ratio), censored: evidence.map(({ bound }) => bound), distribution: "lognormal", confidence,
      columns: { other: evidence.map((one) => (classOf(one) === other ? 1 : 0)) },
      clusters: evidence.map(({ row }) => tests.text(row, "series_id") ?? tests.text(row, "test_id") ?? String(row)),
    }).coefficient("other");
  } catch (error) {
    if (error instanceof RegressionError) return error.message;
    throw error;
  }
}
