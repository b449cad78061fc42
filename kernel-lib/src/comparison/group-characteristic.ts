import { characteristicBySeries, characteristicCensored, characteristicValue, type CannotTell } from "../statistics";
import type { Evidence } from "./compare";

/** What a characteristic ratio is asked for. */
export interface CharacteristicQuestion {
  readonly fractile: number;
  readonly confidence: number;
  readonly distribution: "normal" | "lognormal";
}

/** The characteristic ratio with every test taken as independent of the others; the refusal says why there is none. */
export interface OfTests {
  readonly characteristic: number | null;
  /** Tolerance factor; null when bounds enter, which have no single factor. */
  readonly k: number | null;
  readonly refusal: string;
}

/** What tests counted by series tell: the characteristic ratio, moments of a single test of any series, and how alike tests of a series are. */
export interface BySeries {
  readonly characteristic: number;
  readonly mean: number;
  readonly cov: number;
  /** Share of the variance that lies between series. */
  readonly correlation: number;
  /** Independent tests that the tests are worth for the mean. */
  readonly effectiveTests: number;
  readonly seriesFailed: number;
}

type RatioOfTest = Pick<Evidence, "ratio" | "bound">;

/** The characteristic ratio, tests taken as independent; with lower bounds by the bootstrap of the pivot. */
export function characteristicOfTests(tests: readonly RatioOfTest[], question: CharacteristicQuestion): OfTests {
  const failures = tests.filter(({ bound }) => !bound).map(({ ratio }) => ratio);
  if (failures.length === tests.length) {
    const result = characteristicValue(failures, question);
    return result.status === "ok" ? { characteristic: result.value, k: result.k, refusal: "" } : { characteristic: null, k: null, refusal: lackWords(result) };
  }
  if (failures.length < 3) return { characteristic: null, k: null, refusal: `${failures.length} of ${tests.length} tests failed in the mode; at least 3 are needed` };
  const result = characteristicCensored({ ...question, values: tests.map(({ ratio }) => ratio), censored: tests.map(({ bound }) => bound), seed: "ratio group" });
  return result.status === "ok" ? { characteristic: result.characteristic, k: null, refusal: "" } : { characteristic: null, k: null, refusal: lackWords(result) };
}

/** The same counted by series; a refusal in words where fewer than 3 series failed in the mode. */
export function characteristicOfSeries(tests: readonly RatioOfTest[], series: readonly string[], question: CharacteristicQuestion): BySeries | string {
  const result = characteristicBySeries({ ...question, values: tests.map(({ ratio }) => ratio), censored: tests.map(({ bound }) => bound), clusters: series });
  if (result.status !== "ok") return result.reason === "too few series" ? `only ${new Set(series.filter((_, i) => !tests[i]?.bound)).size} series failed in the mode` : `${result.reason} counted by series`;
  const { characteristic, mean, sd, correlation, effectiveTests, seriesFailed } = result;
  const moments = question.distribution === "lognormal" ? { mean: Math.exp(mean + (sd * sd) / 2), cov: Math.sqrt(Math.expm1(sd * sd)) } : { mean, cov: sd / mean };
  return { characteristic, ...moments, correlation, effectiveTests, seriesFailed };
}

function lackWords({ reason, needed }: CannotTell): string {
  return `${reason}; needed: ${needed}`;
}
