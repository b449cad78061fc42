import { leastSquares } from "../../regression";

/** Ratios test/predicted along a variable such as the bar size. */
export interface FactorAlongInput {
  readonly ratios: ArrayLike<number>;
  /** The variable of each test, above zero. */
  readonly x: ArrayLike<number>;
  /** Marks lower bounds, which a fitted line cannot use. */
  readonly bounds?: ArrayLike<boolean>;
  readonly fractile?: number;
  readonly confidence?: number;
}

/** The factor that the tests call for along a variable, or why none is derived. */
export interface FactorAlong {
  readonly status: "derived" | "not derived";
  readonly n: number;
  readonly sizes: number;
  /** The tested values of the variable, one a test used. */
  readonly tested: readonly number[];
  /** 201 values over the tested range, and the factor there: the one-sided tolerance band, not above 1. */
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
 * The factor along a variable: ln(test/predicted) = ln a + m ln x by least squares, and of it the one-sided tolerance
 * band (5 % fractile at 90 % confidence), exp of the band, never above 1 and never outside the tested range.
 *
 * With fewer than 8 tests or 3 different values of the variable nothing is derived.
 * @throws RangeError for columns of different length, or values that are not above zero
 * @example factorAlongVariable({ ratios, x: diameters })
 */
export function factorAlongVariable(input: FactorAlongInput): FactorAlong {
  const { fractile = 0.05, confidence = 0.9 } = input;
  if (input.x.length !== input.ratios.length) throw new RangeError(`factorAlongVariable: ${input.ratios.length} ratios and ${input.x.length} values of the variable, expected as many of both`);
  const rows = Array.from({ length: input.ratios.length }, (_, i) => i).filter((i) => !input.bounds?.[i]);
  const [ratios, tested] = [rows.map((i) => input.ratios[i] ?? NaN), rows.map((i) => input.x[i] ?? NaN)];
  const wrong = [...ratios, ...tested].find((value) => !(value > 0 && Number.isFinite(value)));
  if (wrong !== undefined) throw new RangeError(`factorAlongVariable: a ratio or a value of the variable is ${wrong}, expected positive numbers`);
  const [n, sizes, left] = [rows.length, new Set(tested).size, input.ratios.length - rows.length];
  const assumptions = ["the scatter is log-normal and the same along the variable", "the median follows a power of the variable within the tested range", "tests independent: tests of one series share their concrete, so the band may be too narrow"];
  const base = { n, sizes, tested, assumptions };
  if (n < LEAST_TESTS || sizes < LEAST_SIZES) {
    return { ...base, status: "not derived", x: [], required: [], exponent: null, lower: null, upper: null, p: null, warnings: [], reading: `No factor along the variable: ${n} tests at ${sizes} values of it; at least ${LEAST_TESTS} tests at ${LEAST_SIZES} values are needed to tell a trend from chance.` };
  }
  const fit = leastSquares({ y: ratios.map(Math.log), columns: { x: tested.map(Math.log) } });
  const [from, to] = [Math.min(...tested), Math.max(...tested)];
  const x = Array.from({ length: STEPS + 1 }, (_, k) => (k === STEPS ? to : from + ((to - from) * k) / STEPS));
  const band = fit.predict({ x: x.map(Math.log) }, { fractile, toleranceConfidence: confidence }).tolerance;
  const slope = fit.coefficient("x");
  const trend = slope.p !== null && slope.p < 0.05;
  return {
    ...base, status: "derived", x, required: Array.from(band, (value) => Math.min(1, Math.exp(value))), exponent: slope.estimate, lower: slope.lower, upper: slope.upper, p: slope.p,
    warnings: [...(left > 0 ? [`${left} lower bounds were left out: the factor errs to the low side where the bar often broke first`] : []), ...(trend ? [] : ["no trend along the variable is shown by these tests: a constant says as much"])],
    reading: `The median ratio goes with the power ${slope.estimate.toFixed(2)} of the variable (95 % interval ${slope.lower.toFixed(2)} to ${slope.upper.toFixed(2)}; ${n} tests at ${sizes} values from ${from} to ${to})${trend ? "" : "; that is no more than chance may do"}.`,
  };
}
