import { chiSquared } from "../statistics/distributions/chi-squared";
import { whereProfileFalls } from "../statistics/censoring/censored-profile";
import {
  maximiseOnHalfLine,
  mixedLogLikelihood,
  type MixedPoint,
  type MixedRows,
} from "./mixed-likelihood";

/** Profile-likelihood intervals of the SDs between and within studies. */
export function scatterIntervals(
  rows: MixedRows,
  restricted: boolean,
  best: MixedPoint,
  confidence: number,
): { between: { lower: number; upper: number }; within: { lower: number; upper: number } } {
  const target = best.logLikelihood - chiSquared(1).quantile(confidence) / 2;
  const within = Math.sqrt(best.residualVariance);
  const between = best.ratio * within;
  // Largest likelihood with sigma_u held, over sigma_e; and with sigma_e held, over sigma_u.
  const ofBetween = (u: number): number => {
    const value = (logE: number): number =>
      mixedLogLikelihood(rows, u / Math.exp(logE), restricted, Math.exp(2 * logE));
    return goldenMaximum(value, Math.log(within) - 2, Math.log(within) + 2);
  };
  const ofWithin = (logE: number): number => {
    const value = (r: number): number =>
      mixedLogLikelihood(rows, r, restricted, Math.exp(2 * logE));
    return value(maximiseOnHalfLine(value));
  };
  const step = Math.max(between, within / 4);
  const lower =
    between > 0 && ofBetween(0) < target ? bisect((u) => ofBetween(u) - target, 0, between) : 0;
  return {
    between: { lower, upper: whereProfileFalls(ofBetween, between, step, target) },
    within: {
      lower: Math.exp(whereProfileFalls(ofWithin, Math.log(within), -0.2, target)),
      upper: Math.exp(whereProfileFalls(ofWithin, Math.log(within), 0.2, target)),
    },
  };
}

function goldenMaximum(f: (x: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  let [left, right] = [high - golden * (high - low), low + golden * (high - low)];
  let [fLeft, fRight] = [f(left), f(right)];
  for (let i = 0; i < 36; i += 1) {
    if (fLeft >= fRight) {
      [high, right, fRight] = [right, left, fLeft];
      left = high - golden * (high - low);
      fLeft = f(left);
    } else {
      [low, left, fLeft] = [left, right, fRight];
      right = low + golden * (high - low);
      fRight = f(right);
    }
  }
  return Math.max(fLeft, fRight);
}

function bisect(f: (x: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  for (let i = 0; i < 34; i += 1) {
    const middle = 0.5 * (low + high);
    if (f(middle) < 0) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}
