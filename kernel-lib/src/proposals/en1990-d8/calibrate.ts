import { shapiroWilk } from "../../statistics";
import { censoredErrorTermsOf } from "./censored-error-terms";
import { errorTermsOf, type ErrorTerms } from "./error-terms";
import type { FractileFactorSource } from "./fractile-factors";
import { calibrationTrace, type CalibrationLine } from "./calibration-trace";
import { resistancesOf, type Resistances } from "./resistances";
import {
  independenceWords,
  seriesBehind,
  seriesWarnings,
  type SeriesBehind,
} from "./series-behind";
import { trendChecks, type TrendCheck } from "./trend-checks";
import type { VariationBudget } from "./variation-budget";

/** Tests and prior knowledge for a calibration to EN 1990 Annex D.8. */
export interface CalibrationInput {
  /** r_e and r_t of each test, same unit; r_t with the measured properties of the specimen. */
  readonly experimental: ArrayLike<number>;
  readonly theoretical: ArrayLike<number>;
  /**
   * V_rt from prior knowledge of the basic variables, in all members built, not only in the tests.
   */
  readonly budget: VariationBudget;
  /**
   * r_n / g_rt(X_m): the resistance with nominal properties over the one with mean properties;
   * default 1.
   */
  readonly nominalOverMean?: number;
  /** Marks tests that are lower bounds (the bar broke first). Annex D cannot use them. */
  readonly bounds?: ArrayLike<boolean>;
  /**
   * What becomes of lower bounds: left out, as the annex would have it, or used by maximum
   * likelihood of log-normal errors, an extension of our own (`censoredErrorTermsOf`). Default
   * `left out`.
   */
  readonly boundsAre?: "left out" | "used by likelihood";
  /** Variables of the resistance function, for the trend checks. */
  readonly variables?: Readonly<Record<string, ArrayLike<number>>>;
  /**
   * Series of each test (same laboratory, geometry, batch). The annex does not know them: they
   * change no number of it, `behind` says what they would.
   */
  readonly series?: ArrayLike<string>;
  /** Rounding step of a factor, beyond which a move by series is warned of; default 0.05. */
  readonly step?: number;
  /** Number of tests for k_n and k_d,n where it is not the number used here. */
  readonly factorCount?: number;
  readonly variationKnown?: boolean;
  readonly source?: FractileFactorSource;
  /** Name of the set in the reading. */
  readonly label?: string;
}

/** Calibration to EN 1990 Annex D.8 with all that is needed to check it by hand. */
export interface Calibration {
  readonly status: "derived" | "not derived";
  readonly label: string;
  /** Tests that failed in the mode. */
  readonly n: number;
  /** Tests that are lower bounds only. */
  readonly bounds: number;
  /** How b and V_δ were found. */
  readonly method: "least squares" | "censored maximum likelihood";
  readonly terms: ErrorTerms | null;
  readonly budget: VariationBudget;
  /** Relative to g_rt(X_m) = 1. */
  readonly resistances: Resistances | null;
  /** γ_M = r_k / r_d. */
  readonly partialFactor: number | null;
  /**
   * r_n / r_d: the partial factor on the nominal resistance. The k_c of D.8.3 is taken as this
   * ratio from memory: to be checked against a licensed copy.
   */
  readonly nominalPartialFactor: number | null;
  /** r_k / r_n: the factor on the nominal resistance that makes it characteristic. */
  readonly characteristicFactor: number | null;
  /** r_d / r_n: the factor on the nominal resistance that makes it the design value. */
  readonly designFactor: number | null;
  readonly trends: readonly TrendCheck[];
  /** The series behind the tests; null where none were given or nothing is derived. */
  readonly behind: SeriesBehind | null;
  readonly trace: readonly CalibrationLine[];
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

const ASSUMPTIONS = [
  "the resistance and its error are log-normal and independent",
  "the tests are a fair sample of the members the resistance function is meant for",
  "the coefficients of variation of the basic variables hold for the members built",
  "the factor on the nominal resistance is read from D.8.3 as r_n / r_d (k_c there): from memory, to be checked against a licensed copy",
];
const LIKELIHOOD =
  "lower bounds used by maximum likelihood of log-normal errors (an extension, not in EN 1990): what ended those tests must have nothing to do with the strength still to come; k_n and k_d,n are read with the failures alone";

/**
 * Statistical determination of a resistance model, EN 1990:2002 Annex D.8: correction b, V_δ, V_r,
 * r_k (5 %), r_d (target reliability of the Eurocodes, α_R β = 3.04) and the factors on the nominal
 * resistance.
 *
 * The annex takes tests as independent. Where `series` are given the result says beside its own
 * numbers how many stand behind them, how alike their tests are, and the factors with the effective
 * number of tests ({@link seriesBehind}).
 *
 * Fewer than 3 tests give nothing, 3 give r_k but no r_d (Table D2 has no entry with V_X unknown);
 * the reason is said.
 * @throws RangeError for columns of different length or resistances not above zero
 * @example
 * calibrateEn1990({ experimental, theoretical, budget: variationOfProduct([{ name: "f_c", cov: 0.15, exponent: 0.5 }]) })
 */
export function calibrateEn1990(input: CalibrationInput): Calibration {
  const { label = "all tests", budget } = input;
  if (input.theoretical.length !== input.experimental.length)
    throw new RangeError(
      `calibrateEn1990: ${input.experimental.length} experimental and ${input.theoretical.length} theoretical values, expected as many of both`,
    );
  if (input.series && input.series.length !== input.experimental.length)
    throw new RangeError(
      `calibrateEn1990: ${input.experimental.length} tests and ${input.series.length} names of series, expected as many of both`,
    );
  const all = Array.from({ length: input.experimental.length }, (_, i) => i);
  const rows = all.filter((i) => !input.bounds?.[i]);
  const pick = (column: ArrayLike<number>): number[] => rows.map((i) => column[i] ?? NaN);
  const n = rows.length;
  const bounds = all.length - n;
  const least = input.variationKnown ? 2 : 3;
  const used = bounds > 0 && input.boundsAre === "used by likelihood";
  const method = used ? ("censored maximum likelihood" as const) : ("least squares" as const);
  const boundWarnings = used ? wordsOfUsed(n, bounds) : wordsOfLeftOut(bounds);
  const base = {
    label,
    n,
    bounds,
    method,
    budget,
    assumptions: used ? [...ASSUMPTIONS, LIKELIHOOD] : ASSUMPTIONS,
  };
  const nothing = (reason: string): Calibration => ({
    ...base,
    status: "not derived",
    terms: null,
    resistances: null,
    partialFactor: null,
    nominalPartialFactor: null,
    characteristicFactor: null,
    designFactor: null,
    trends: [],
    behind: null,
    trace: [],
    warnings: boundWarnings,
    reading: `${label}: nothing is derived, ${reason}.`,
  });
  if (n < least)
    return nothing(`${n} tests are too few: the scatter cannot be told with fewer than ${least}`);
  const terms = used
    ? censoredErrorTermsOf(
        input.experimental,
        input.theoretical,
        all.map((i) => input.bounds?.[i] ?? false),
      )
    : errorTermsOf(pick(input.experimental), pick(input.theoretical));
  if (typeof terms === "string") return nothing(terms.replace(/\.$/, ""));
  const { factorCount = n, variationKnown = false, source = "table" } = input;
  const question = {
    n,
    b: terms.b,
    meanResistance: 1,
    errorCov: terms.cov,
    modelCov: budget.cov,
    factorCount,
    variationKnown,
    source,
  };
  const resistances = resistancesOf(question);
  const trends = trendChecks(
    terms.delta,
    Object.fromEntries(
      Object.entries(input.variables ?? {}).map(([name, column]) => [name, pick(column)]),
    ),
  );
  const nominal = input.nominalOverMean ?? 1;
  const { characteristic, design } = resistances;
  const kept = used ? all : rows;
  const behind = input.series
    ? seriesBehind({
        ratios: kept.map((i) => (input.experimental[i] ?? NaN) / (input.theoretical[i] ?? NaN)),
        bounds: kept.map((i) => Boolean(input.bounds?.[i])),
        series: kept.map((i) => input.series?.[i] ?? ""),
        resistances: question,
        nominal,
      })
    : null;
  const over = (a: number | null, b: number | null): number | null =>
    a === null || b === null ? null : a / b;
  const factors = {
    characteristicFactor: over(characteristic, nominal),
    designFactor: over(design, nominal),
  };
  const result = {
    ...base,
    status: "derived" as const,
    terms,
    resistances,
    trends,
    behind,
    ...factors,
    assumptions: [...base.assumptions, independenceWords(behind, n)],
    partialFactor: over(characteristic, design),
    nominalPartialFactor: over(nominal, design),
    warnings: [
      ...boundWarnings,
      ...warningsOf(terms, trends, n, factorCount, method),
      ...seriesWarnings(behind, factors, input.step ?? 0.05),
      ...(design === null
        ? [
            `no design value: Table D2 has no entry for ${factorCount} tests with V_X unknown; at least 4 are needed`,
          ]
        : []),
    ],
  };
  return {
    ...result,
    trace: calibrationTrace(terms, budget, resistances, nominal, method),
    reading: read(
      label,
      n,
      used ? bounds : 0,
      terms,
      result.characteristicFactor,
      result.partialFactor,
      trends,
    ),
  };
}

const tests = (n: number): string =>
  n === 1 ? "1 test is a lower bound" : `${n} tests are lower bounds`;

/**
 * Without its highest values a log-normal sample has too low a mean and too small a scatter. Three
 * standard deviations down, the second error is mostly the larger one.
 */
function wordsOfLeftOut(bounds: number): string[] {
  return bounds > 0
    ? [
        `${tests(bounds)} and ${bounds === 1 ? "was" : "were"} left out, since Annex D cannot use ${bounds === 1 ? "it" : "them"}: b is then too low and V_δ too small; the first makes r_k and r_d too low, the second too high, r_d more than r_k, so that they may err to the unsafe side; look at the fit that uses the bounds`,
      ]
    : [];
}

function wordsOfUsed(n: number, bounds: number): string[] {
  return [
    `${tests(bounds)} and enter by likelihood, which EN 1990 does not provide for`,
    ...(bounds > n
      ? [
          `more lower bounds (${bounds}) than failures (${n}): the scatter rests on the assumed distribution`,
        ]
      : []),
    "trends are looked for among the failures alone",
  ];
}

function warningsOf(
  terms: ErrorTerms,
  trends: readonly TrendCheck[],
  n: number,
  factorCount: number,
  method: Calibration["method"],
): string[] {
  const warnings = trends.filter(({ trend }) => trend === "trend").map(({ reading }) => reading);
  const normality = shapiroWilk(terms.delta, { distribution: "lognormal" });
  // The failures of a censored sample are not log-normal even where all strengths are.
  if (method === "least squares" && normality.status === "ok" && normality.p < 0.05)
    warnings.push(
      `the error terms do not look log-normal (Shapiro-Wilk on ln δ, p = ${normality.p.toPrecision(2)}): the fractiles far out are doubtful`,
    );
  if (Math.abs(terms.b / terms.meanRatio - 1) > 0.1)
    warnings.push(
      `b = ${terms.b.toFixed(3)} weighs large specimens most and differs from the mean ratio ${terms.meanRatio.toFixed(3)}: the model errs differently for small and large`,
    );
  if (terms.cov > 0.3)
    warnings.push(
      `V_δ = ${terms.cov.toFixed(2)} is high: divide the tests into sub-sets or mend the resistance function`,
    );
  if (n < 10)
    warnings.push(
      `${n} tests: the scatter is hardly known, one test more or less may move the factors`,
    );
  if (factorCount !== n)
    warnings.push(`k_n and k_d,n are read with ${factorCount} tests, b and V_δ come from ${n}`);
  return warnings;
}

function read(
  label: string,
  n: number,
  bounds: number,
  terms: ErrorTerms,
  factor: number | null,
  gamma: number | null,
  trends: readonly TrendCheck[],
): string {
  const drifting = trends.filter(({ trend }) => trend === "trend").map(({ variable }) => variable);
  const trend =
    trends.length === 0
      ? "no trend was looked for"
      : drifting.length > 0
        ? `the correction drifts with ${drifting.join(", ")}`
        : "no trend of the correction was found";
  return `${label}: b = ${terms.b.toFixed(3)}, V_δ = ${terms.cov.toFixed(3)} from ${n} tests${bounds > 0 ? ` and ${bounds} lower bounds` : ""}; factor on the nominal resistance for the 5 % value ${factor === null ? "not told" : factor.toFixed(3)}, γ_M = ${gamma === null ? "not told" : gamma.toFixed(3)}; ${trend}.`;
}
