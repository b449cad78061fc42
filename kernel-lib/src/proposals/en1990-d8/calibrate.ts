import { censoredErrorTermsOf } from "./censored-error-terms";
import { errorTermsOf } from "./error-terms";
import { calibrationTrace } from "./calibration-trace";
import { resistancesOf } from "./resistances";
import { independenceWords, seriesBehind, seriesWarnings } from "./series-behind";
import { trendChecks } from "./trend-checks";
import type { CalibrationInput, Calibration } from "./calibration";
import {
  wordsOfUsed,
  wordsOfLeftOut,
  ASSUMPTIONS,
  LIKELIHOOD,
  warningsOf,
  read,
} from "./calibration-words";

/**
 * Statistical determination of a resistance model, EN 1990:2002 Annex D.8: correction b, V_δ, V_r,
 * r_k (5 %), r_d (target reliability of the Eurocodes, α_R β = 3.04) and the factors on the nominal
 * resistance.
 *
 * The annex ignores the series effect. Where `series` are given the result says beside its own
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
      `calibrateEn1990: ${input.experimental.length} experimental and ${input.theoretical.length} theoretical values, expected equal numbers`,
    );
  if (input.series && input.series.length !== input.experimental.length)
    throw new RangeError(
      `calibrateEn1990: ${input.experimental.length} tests and ${input.series.length} names of series, expected equal numbers`,
    );
  const all = Array.from({ length: input.experimental.length }, (_, i) => i);
  const rows = all.filter((i) => !input.lowerBounds?.[i]);
  const pick = (column: ArrayLike<number>): number[] => rows.map((i) => column[i] ?? NaN);
  const n = rows.length;
  const lowerBounds = all.length - n;
  const least = input.variationKnown ? 2 : 3;
  const used = lowerBounds > 0 && input.treatmentOfLowerBounds === "used by likelihood";
  const method = used ? ("censored maximum likelihood" as const) : ("least squares" as const);
  const boundWarnings = used ? wordsOfUsed(n, lowerBounds) : wordsOfLeftOut(lowerBounds);
  const base = {
    label,
    n,
    lowerBounds,
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
    return nothing(
      `${n} tests are too few: the scatter cannot be estimated with fewer than ${least}`,
    );
  const terms = used
    ? censoredErrorTermsOf(
        input.experimental,
        input.theoretical,
        all.map((i) => input.lowerBounds?.[i] ?? false),
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
        lowerBounds: kept.map((i) => Boolean(input.lowerBounds?.[i])),
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
      used ? lowerBounds : 0,
      terms,
      result.characteristicFactor,
      result.partialFactor,
      trends,
    ),
  };
}
