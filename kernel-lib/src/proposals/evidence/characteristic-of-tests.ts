import { characteristicBySeries, characteristicCensored, characteristicValue, generalisedEsd } from "../../statistics";

/** One ratio behind a factor with where it comes from. */
export interface EvidenceTest {
  readonly ratio: number;
  /** True when the ratio is a lower bound. */
  readonly bound: boolean;
  readonly study: string;
  readonly series: string;
  /** Bar size or another class. */
  readonly size: string | number;
}

/** The choices a reasonable analyst makes on the way to a factor. */
export interface FactorChoices {
  readonly distribution: "normal" | "lognormal";
  /** A tolerance bound with this confidence, or the prediction form of EN 1990 (null). */
  readonly confidence: number | null;
  readonly fractile: number;
  /** Lower bounds as such, left out, or taken as if they were failures (low on purpose). */
  readonly bounds: "as lower bounds" | "left out" | "as failures";
  /** Outliers by the generalised ESD test on ln ratio. */
  readonly outliers: "kept" | "left out";
  /** Counted by series, since tests of one share concrete, hole and day; or taken as independent. */
  readonly basis: "series" | "tests";
}

/** The usual choices: 5 % fractile at 90 % confidence, normal, lower bounds as such, nothing left out, counted by series. */
export const USUAL_CHOICES: FactorChoices = { distribution: "normal", confidence: 0.9, fractile: 0.05, bounds: "as lower bounds", outliers: "kept", basis: "series" };

type TestInSeries = Pick<EvidenceTest, "ratio" | "bound" | "series">;

/** What a set of choices gives: a factor, or the reason why there is none. */
export interface ChosenFactor {
  readonly factor: number | null;
  readonly n: number;
  readonly reason: string;
}

/** The characteristic ratio of the tests under the choices; null with the reason where they cannot tell it. */
export function characteristicOfTests(tests: readonly TestInSeries[], choices: FactorChoices = USUAL_CHOICES): ChosenFactor {
  const kept = withoutOutliers(choices.bounds === "left out" ? tests.filter(({ bound }) => !bound) : tests, choices.outliers);
  const values = kept.map(({ ratio }) => ratio);
  const censored = kept.map(({ bound }) => bound && choices.bounds === "as lower bounds");
  const { distribution, fractile, confidence } = choices;
  const n = values.length;
  const none = (reason: string): ChosenFactor => ({ factor: null, n, reason });
  if (confidence === null && (choices.basis === "series" || censored.includes(true))) return none(`the prediction form of EN 1990 cannot ${choices.basis === "series" ? "count by series" : "use lower bounds"}`);
  if (choices.basis === "series") {
    const result = characteristicBySeries({ values, censored, clusters: kept.map(({ series }) => series), distribution, fractile, confidence: confidence ?? NaN });
    return result.status === "ok" ? { factor: result.characteristic, n, reason: "" } : none(`${result.reason}; needed: ${result.needed}`);
  }
  if (!censored.includes(true)) {
    const result = characteristicValue(values, { distribution, fractile, ...(confidence === null ? { method: "prediction" as const } : { confidence }) });
    return result.status === "ok" ? { factor: result.value, n, reason: "" } : none(`${result.reason}; needed: ${result.needed}`);
  }
  const failures = censored.filter((bound) => !bound).length;
  if (failures < 3) return none(`${failures} tests failed in the mode; at least 3 are needed`);
  const result = characteristicCensored({ values, censored, distribution, fractile, confidence: confidence ?? NaN, seed: "evidence of a factor" });
  return result.status === "ok" ? { factor: result.characteristic, n, reason: "" } : none(result.reading);
}

function withoutOutliers<One extends Pick<EvidenceTest, "ratio" | "bound">>(tests: readonly One[], outliers: FactorChoices["outliers"]): readonly One[] {
  if (outliers === "kept") return tests;
  const failed = tests.filter(({ bound }) => !bound);
  const found = generalisedEsd(failed.map(({ ratio }) => Math.log(ratio)));
  if (found.status !== "ok") return tests;
  const flagged = new Set(found.flagged.map(({ index }) => failed[index]));
  return tests.filter((one) => !flagged.has(one));
}
