import { counted, intervalWords, percent, pWords, significant } from "../statistics/reading";
import type { Coefficient } from "./coefficient-table";
import { INTERCEPT, type ModelRows } from "./model-rows";
import type { StandardErrorMethod } from "./sandwich";
import { setAsideWords, type RegressionStatement } from "./statement";

export interface LeastSquaresFacts {
  readonly model: ModelRows;
  readonly coefficients: readonly Coefficient[];
  readonly confidence: number;
  readonly residualSd: number;
  readonly rSquared: number | null;
  readonly response: string;
  readonly exactFit: boolean;
  readonly standardErrors: StandardErrorMethod;
  /** Degrees of freedom of the t-values: clusters - 1 when clustered. */
  readonly clusterDf: number;
}

/** Method, assumptions, warnings and reading of a least-squares fit. */
export function describeLeastSquares(facts: LeastSquaresFacts): RegressionStatement {
  const { model, standardErrors } = facts;
  const weighted = model.weights !== null;
  return {
    method: `${weighted ? "Weighted" : "Ordinary"} least squares, ${errorWords(standardErrors, facts.clusterDf)}`,
    assumptions: [
      "the mean of y is linear in the columns",
      standardErrors === "classical" || standardErrors === "hc3"
        ? "rows are independent"
        : "clusters are independent; rows within a cluster may share an error",
      ...(standardErrors === "classical"
        ? [
            weighted
              ? "the variance of a row is the residual variance over its weight"
              : "the same scatter in all rows",
          ]
        : []),
      "errors are nearly normal, for t-values and bands; prediction and tolerance bands also assume the same scatter in all rows",
    ],
    n: model.n,
    excluded: model.excluded,
    warnings: warningsOf(facts),
    reading: readingOf(facts),
  };
}

function errorWords(method: StandardErrorMethod, df: number): string {
  if (method === "classical") return "classical standard errors";
  if (method === "hc3") return "HC3 standard errors";
  return `cluster-robust standard errors (${df + 1} clusters)`;
}

function warningsOf(facts: LeastSquaresFacts): string[] {
  const warnings: string[] = [];
  if (facts.exactFit)
    warnings.push(
      "The fit matches every row exactly: standard errors and p-values have no meaning",
    );
  if (facts.rSquared === null) warnings.push("y does not vary: R-squared is not defined");
  if (typeof facts.standardErrors === "object" && facts.clusterDf < 9) {
    warnings.push(
      `Only ${facts.clusterDf + 1} clusters: cluster-robust standard errors are known to be too small below about 10 clusters (common practice, no source)`,
    );
  }
  const perCoefficient = facts.model.n / facts.model.columns.length;
  if (perCoefficient < 3)
    warnings.push(
      `${facts.model.n} rows for ${facts.model.columns.length} coefficients: the result is based on very few rows`,
    );
  return warnings;
}

function readingOf(facts: LeastSquaresFacts): string {
  const { model, response, coefficients } = facts;
  const basis = `${counted(model.n, "row")}${setAsideWords(model.excluded)}`;
  const slopes = coefficients.filter((c) => c.name !== INTERCEPT);
  if (facts.exactFit)
    return `The line fits every value of ${response} exactly, so the scatter cannot be estimated (${basis}).`;
  if (slopes.length === 0) {
    const mean = coefficients[0]!;
    return `The mean of ${response} is ${significant(mean.estimate)} (${intervalWords(mean.lower, mean.upper, facts.confidence)}), residual SD ${significant(facts.residualSd)} (${basis}).`;
  }
  if (slopes.length === 1)
    return `${slopeWords(slopes[0]!, response, facts.confidence)}, residual SD ${significant(facts.residualSd)} (${basis}).`;
  const told = slopes.filter(isTold);
  const open = slopes.filter((c) => !isTold(c));
  const parts = [
    ...(told.length > 0
      ? [
          `${response} changes with ${told.map((c) => `${c.name} (${signed(c.estimate)} per unit, ${pWords(c.p)})`).join(", ")}`,
        ]
      : []),
    ...(open.length > 0
      ? [
          `for ${open.map((c) => `${c.name} (${signed(c.lower)} to ${signed(c.upper)} per unit)`).join(", ")} the direction is not established`,
        ]
      : []),
  ];
  const share = facts.rSquared === null ? "" : `, R-squared ${significant(facts.rSquared)}`;
  return `With the other columns held constant, ${parts.join("; ")}${share}, residual SD ${significant(facts.residualSd)} (${basis}).`;
}

/** True when the interval of the coefficient leaves out zero. */
export function isTold(c: Coefficient): boolean {
  return c.lower > 0 || c.upper < 0;
}

/** A slope in words: what it is, or what the data can still hold. */
export function slopeWords(c: Coefficient, response: string, confidence: number): string {
  const numbers = `${intervalWords(c.lower, c.upper, confidence)}, ${pWords(c.p)}`;
  if (isTold(c))
    return `${response} ${c.estimate > 0 ? "increases" : "decreases"} by ${significant(Math.abs(c.estimate))} per unit of ${c.name} (${numbers})`;
  return `No significant change of ${response} with ${c.name} was found: ${signed(c.lower)} to ${signed(c.upper)} per unit is within the ${percent(confidence)} interval (${pWords(c.p)})`;
}

/** A number with its sign. */
export function signed(value: number): string {
  return value > 0 ? `+${significant(value)}` : significant(value);
}
