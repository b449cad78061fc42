import { increasingRoot } from "../special/monotone-root";

/**
 * A continuous probability distribution with its parameters fixed.
 *
 * Upper tails and logarithms are computed as such, never as 1 − cdf or ln(cdf), so they keep their
 * digits where the probability itself is tiny. `x` missing (NaN) gives NaN; a probability outside
 * 0…1 throws.
 */
export interface Distribution {
  /** Name and parameters in words, for traces and captions. */
  readonly name: string;
  /** Ends of the range of x. */
  readonly range: readonly [number, number];
  /** Mean; NaN where it does not exist. */
  readonly mean: number;
  /** Standard deviation; NaN or Infinity where it does not exist. */
  readonly sd: number;
  /** Probability density f(x). */
  pdf(x: number): number;
  /** ln f(x). */
  logPdf(x: number): number;
  /** P(X ≤ x). */
  cdf(x: number): number;
  /** P(X > x). */
  upperTail(x: number): number;
  /** ln P(X ≤ x). */
  logCdf(x: number): number;
  /** ln P(X > x). */
  logUpperTail(x: number): number;
  /** x with P(X ≤ x) = p. */
  quantile(p: number): number;
  /** x with P(X > x) = p: the upper quantile, exact for p far below rounding of 1 − p. */
  upperQuantile(p: number): number;
}

/** Throws unless 0 ≤ p ≤ 1. */
export function requireProbability(p: number, where: string): void {
  if (!(p >= 0 && p <= 1))
    throw new RangeError(`${where}: probability is ${p}, expected a number from 0 to 1`);
}

/** Throws unless the parameter is a positive finite number. */
export function requirePositive(value: number, parameter: string, where: string): void {
  if (!(value > 0) || value === Infinity)
    throw new RangeError(`${where}: ${parameter} is ${value}, expected a positive number`);
}

/** Throws unless the parameter is a finite number. */
export function requireFinite(value: number, parameter: string, where: string): void {
  if (!Number.isFinite(value))
    throw new RangeError(`${where}: ${parameter} is ${value}, expected a finite number`);
}

/** The parts of a distribution from which its quantile can be found. */
export interface TailFunctions {
  range: readonly [number, number];
  logPdf(x: number): number;
  logCdf(x: number): number;
  logUpperTail(x: number): number;
}

/**
 * Quantile by root search on the logarithm of the wanted tail, which is nearly straight far out.
 * @param logP ln of the tail probability
 * @param tail which tail it belongs to
 * @param start a first guess
 */
export function quantileOfTail(
  parts: TailFunctions,
  logP: number,
  tail: "lower" | "upper",
  start: number,
): number {
  const [from, to] = parts.range;
  if (logP === -Infinity) return tail === "lower" ? from : to;
  if (logP === 0) return tail === "lower" ? to : from;
  const sign = tail === "lower" ? 1 : -1;
  const logTail = (x: number): number =>
    tail === "lower" ? parts.logCdf(x) : parts.logUpperTail(x);
  return increasingRoot(
    (x) => {
      const value = logTail(x);
      return { value: sign * (value - logP), slope: Math.exp(parts.logPdf(x) - value) };
    },
    start,
    from,
    to,
  );
}

/** Quantile from the smaller of the two tails: p below ½ by the lower, else by the upper tail. */
export function quantileByRoot(parts: TailFunctions, p: number, start: number): number {
  return p <= 0.5
    ? quantileOfTail(parts, Math.log(p), "lower", start)
    : quantileOfTail(parts, Math.log1p(-p), "upper", start);
}

/** Upper quantile from the smaller of the two tails. */
export function upperQuantileByRoot(parts: TailFunctions, p: number, start: number): number {
  return p <= 0.5
    ? quantileOfTail(parts, Math.log(p), "upper", start)
    : quantileOfTail(parts, Math.log1p(-p), "lower", start);
}

/** Infinity guard: a finite quantile or the end of the range. */
export function atEnds(p: number, range: readonly [number, number], upper: boolean): number | null {
  if (p === 0) return upper ? range[1] : range[0];
  if (p === 1) return upper ? range[0] : range[1];
  return null;
}
