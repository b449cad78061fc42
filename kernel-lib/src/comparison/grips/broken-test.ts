import { normal } from "../../statistics";
import type { LognormalLaw } from "./lognormal-law";

/**
 * A mode that was free to end a test, with the law of its test-to-predicted ratio and the ratio
 * reached so far.
 */
export interface RivalMode {
  readonly mode: string;
  readonly law: Pick<LognormalLaw, "median" | "sdLog">;
  /** The ratio at the load at which the bar broke in the grip: a lower bound. */
  readonly reached: number;
}

/** How a test would have ended that the grip cut short. */
export interface FurtherCourse {
  /** Probability of each mode, in the order given. */
  readonly probabilities: readonly number[];
  /** Probability that the bar would have ruptured first. */
  readonly rupture: number;
  /** Final load over the load reached: median and central 90 %; at most the load of bar rupture. */
  readonly median: number;
  readonly lower: number;
  readonly upper: number;
}

const STEPS = 2000;
const Z = normal();

/**
 * The further course of a test from load P at which its grip gave way: with t = ln(load / P), mode
 * j ends it at a t whose law is that of ln ratio, cut off below the ratio reached, modes
 * independent; at t = ln(rupture / P) the bar ruptures.
 *
 * P(mode j first) = integral of h_j(t) S(t) dt, S(t) = product of S_j(t)/S_j(0); hazards h_j as
 * differences of ln S_j over equal steps, exact in the sum over modes, within about 1e-4 for each
 * mode.
 * @param ruptureOver bar rupture load over P; the rupture load is taken as known (measured mean
 * strength)
 * @example furtherCourse([{ mode: "bond", law: { median: 1.2, sdLog: 0.1 }, reached: 1.1 }],
 * 1.4).probabilities
 */
export function furtherCourse(modes: readonly RivalMode[], ruptureOver: number): FurtherCourse {
  const end = Math.log(ruptureOver);
  if (!(end > 0))
    return { probabilities: modes.map(() => 0), rupture: 1, median: 1, lower: 1, upper: 1 };
  const logTail = ({ law, reached }: RivalMode, t: number): number =>
    Z.logUpperTail((Math.log(reached / law.median) + t) / law.sdLog);
  const probabilities = modes.map(() => 0);
  const survivals = [1];
  let before = modes.map((mode) => logTail(mode, 0));
  let survival = 1;
  for (let k = 1; k <= STEPS; k += 1) {
    const now = modes.map((mode) => logTail(mode, (end * k) / STEPS));
    const falls = now.map((value, j) => before[j]! - value);
    const total = falls.reduce((sum, one) => sum + one, 0);
    const lost = survival * -Math.expm1(-total);
    falls.forEach((one, j) => {
      if (total > 0) probabilities[j]! += (lost * one) / total;
    });
    survival *= Math.exp(-total);
    survivals.push(survival);
    before = now;
  }
  const loadAt = (share: number): number => {
    const k = survivals.findIndex((one) => one <= share);
    if (k <= 0) return k < 0 ? ruptureOver : 1;
    const part = (survivals[k - 1]! - share) / (survivals[k - 1]! - survivals[k]!);
    return Math.exp((end * (k - 1 + part)) / STEPS);
  };
  return {
    probabilities,
    rupture: survival,
    median: loadAt(0.5),
    lower: loadAt(0.95),
    upper: loadAt(0.05),
  };
}
