import { beta } from "../distributions/beta";
import { percent, significant } from "../reading";
import { notEstimable, requireShares, type Account, type NotEstimable } from "../result";

export interface BinomialInput {
  /** Tests in which the event happened, 0 to `tests`. */
  readonly events: number;
  readonly tests: number;
  /** Two-sided confidence; default 0.95. */
  readonly confidence?: number;
}

/** A share of events with its exact interval. */
export interface BinomialInterval extends Account {
  readonly status: "ok";
  readonly events: number;
  readonly share: number;
  readonly lower: number;
  readonly upper: number;
  readonly confidence: number;
}

/**
 * Exact (Clopper-Pearson) interval of a probability p from x events in n independent tests: the
 * lower end is the (1 − C)/2 quantile of beta(x, n − x + 1), the upper end the (1 + C)/2 quantile
 * of beta(x + 1, n − x). With no event the lower end is 0, with nothing but events the upper end
 * is 1.
 *
 * Limits: it holds p at least as often as stated, most often more; tests of one series that behave
 * alike are worth fewer independent ones, and the interval is then too narrow. Source: Clopper and
 * Pearson, Biometrika 26 (1934) 404.
 * @returns the interval, or "cannot be estimated" without a test
 * @throws RangeError for counts that are no whole numbers from 0 to n, or a confidence outside 0
 * to 1
 * @example binomialInterval({ events: 3, tests: 20 }).reading
 */
export function binomialInterval(input: BinomialInput): BinomialInterval | NotEstimable {
  const { events, tests, confidence = 0.95 } = input;
  const method = "Exact binomial interval (Clopper-Pearson)";
  if (!Number.isInteger(tests) || !Number.isInteger(events) || events < 0 || events > tests) {
    throw new RangeError(
      `binomialInterval: ${events} events in ${tests} tests, expected whole numbers, 0 to n`,
    );
  }
  requireShares("binomialInterval", { confidence });
  if (tests === 0) return notEstimable(method, "too few values", "at least one test", 0);
  const tail = (1 - confidence) / 2;
  const lower = events === 0 ? 0 : beta(events, tests - events + 1).quantile(tail);
  const upper = events === tests ? 1 : beta(events + 1, tests - events).upperQuantile(tail);
  const interval = `${percent(confidence)} interval ${significant(100 * lower)} to ${significant(100 * upper)} %`;
  return {
    status: "ok",
    method,
    n: tests,
    excluded: [],
    events,
    share: events / tests,
    lower,
    upper,
    confidence,
    assumptions: ["tests are independent, each with the same probability of the event"],
    reading: `${events} of ${tests} (${percent(events / tests)}; ${interval}).`,
  };
}
