import { bandBySeries } from "./band-by-series";
import { censoredBand } from "./censored-band";
import { exactBand } from "./exact-band";

/** Ratios test/predicted along a variable such as the bar size. */
export interface FactorAlongInput {
  readonly ratios: ArrayLike<number>;
  /** The variable of each test, above zero. */
  readonly x: ArrayLike<number>;
  /** Marks lower bounds, which count as such. */
  readonly lowerBounds?: ArrayLike<boolean>;
  /** Series of each test; where given, band and exponent include the series effect. */
  readonly series?: ArrayLike<string>;
  readonly fractile?: number;
  readonly confidence?: number;
  /** Of the bootstrap that lower bounds need. */
  readonly seed?: number | string;
  readonly resamples?: number;
}

/** The factor that the tests call for along a variable, or why none is derived. */
export interface FactorAlong {
  readonly status: "derived" | "not derived";
  /** Tests that failed in the mode, and lower bounds. */
  readonly n: number;
  readonly nCensored: number;
  readonly sizes: number;
  /** The tested values of the variable, one a test used. */
  readonly tested: readonly number[];
  /**
   * 201 values over the tested range, and the factor there: the one-sided tolerance band, not above
   * 1.
   */
  readonly x: readonly number[];
  readonly required: readonly number[];
  /** Exponent of the fitted median, ratio = a x^m, with its 95 % interval and p. */
  readonly exponent: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly p: number | null;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
  readonly reading: string;
}

const [LEAST_TESTS, LEAST_SIZES, STEPS] = [8, 3, 200];

/**
 * The factor along a variable: ln(test/predicted) = ln a + m ln x by least squares, and of it the
 * one-sided tolerance band (5 % fractile at 90 % confidence), exp of the band, never above 1 and
 * never outside the tested range. Where there are lower bounds, by censored maximum likelihood
 * (Tobit on logs) with a bootstrap of the pivot in place of the exact band. Where series are given
 * both include the series effect, for a further test of a further series ({@link bandBySeries}):
 * the tests of a series mostly share the variable, so that with the series effect ignored they show
 * trends that are none.
 *
 * With fewer than 8 failures or 3 different values of the variable nothing is derived.
 * @throws RangeError for columns of different length, or values that are not above zero
 * @example factorAlongVariable({ ratios, x })
 */
export function factorAlongVariable(input: FactorAlongInput): FactorAlong {
  const { fractile = 0.05, confidence = 0.9 } = input;
  if (input.x.length !== input.ratios.length)
    throw new RangeError(
      `factorAlongVariable: ${input.ratios.length} ratios and ${input.x.length} values of the variable, expected equal numbers`,
    );
  if (input.series && input.series.length !== input.ratios.length)
    throw new RangeError(
      `factorAlongVariable: ${input.ratios.length} ratios and ${input.series.length} names of series, expected equal numbers`,
    );
  const [ratios, tested] = [Array.from(input.ratios), Array.from(input.x)];
  const lowerBounds = ratios.map((_, i) => Boolean(input.lowerBounds?.[i]));
  const wrong = [...ratios, ...tested].find((value) => !(value > 0 && Number.isFinite(value)));
  if (wrong !== undefined)
    throw new RangeError(
      `factorAlongVariable: a ratio or a value of the variable is ${wrong}, expected positive numbers`,
    );
  const failed = tested.filter((_, i) => !lowerBounds[i]);
  const [n, sizes] = [failed.length, new Set(failed).size];
  const nCensored = ratios.length - n;
  const assumptions = [
    "the scatter is lognormal and the same along the variable",
    "the median follows a power of the variable within the tested range",
    input.series
      ? `series are independent with the same scatter${nCensored > 0 ? "; with lower bounds, the effect of censoring on the band is approximate" : ""}`
      : "tests are independent; tests of one series share their concrete, so the band may be too narrow",
  ];
  const base = { n, nCensored, sizes, tested, assumptions };
  const refused = {
    ...base,
    status: "not derived" as const,
    x: [],
    required: [],
    exponent: null,
    lower: null,
    upper: null,
    p: null,
    warnings: [],
  };
  if (n < LEAST_TESTS || sizes < LEAST_SIZES) {
    return {
      ...refused,
      reading: `No factor along the variable: ${n} tests at ${sizes} values of the variable; at least ${LEAST_TESTS} tests at ${LEAST_SIZES} values are needed to detect a trend.`,
    };
  }
  const [from, to] = [Math.min(...tested), Math.max(...tested)];
  const x = Array.from({ length: STEPS + 1 }, (_, k) =>
    k === STEPS ? to : from + ((to - from) * k) / STEPS,
  );
  const question = {
    ratios,
    lowerBounds,
    x: tested,
    grid: x,
    fractile,
    confidence,
    seed: input.seed ?? "factor along a variable",
    resamples: input.resamples ?? 999,
  };
  const found = input.series
    ? bandBySeries({ ...question, series: Array.from(input.series) })
    : nCensored === 0
      ? exactBand(question)
      : censoredBand(question);
  if (typeof found === "string")
    return { ...refused, reading: `No factor along the variable: ${found}.` };
  const slope = found.exponent;
  const trend = slope.p !== null && slope.p < 0.05;
  return {
    ...base,
    status: "derived",
    x,
    required: found.band.map((value) => Math.min(1, Math.exp(value))),
    exponent: slope.estimate,
    lower: slope.lower,
    upper: slope.upper,
    p: slope.p,
    warnings: [
      ...(nCensored > 0
        ? [
            `${nCensored} of ${n + nCensored} tests are lower bounds, treated as censored: the band is a bootstrap and only approximate`,
          ]
        : []),
      ...(nCensored > 0 && trend && input.series
        ? [
            "with lower bounds, a trend is found too often: in 5 to 14 % of simulated samples of 6 to 22 series without a trend, instead of the stated 5 %",
          ]
        : []),
      ...(trend
        ? []
        : ["no significant trend along the variable was found: a constant is sufficient"]),
    ],
    reading: `The median ratio varies with the power ${slope.estimate.toFixed(2)} of the variable (95 % interval ${slope.lower.toFixed(2)} to ${slope.upper.toFixed(2)}; ${n} tests at ${sizes} values from ${from} to ${to}${nCensored > 0 ? ` and ${nCensored} lower bounds` : ""})${trend ? "" : "; not significantly different from no trend"}.`,
  };
}
