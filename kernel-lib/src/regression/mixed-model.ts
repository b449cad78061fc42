import { chiSquared } from "../statistics/distributions/chi-squared";
import { counted } from "../statistics/reading";
import { requireShare } from "./bands";
import { coefficientOf, twoSidedQuantile } from "./coefficient-table";
import { blankLabel, namedCoefficient } from "./least-squares";
import {
  maximiseOnHalfLine,
  mixedLogLikelihood,
  solutionAt,
  studyMeans,
  type MixedRows,
} from "./mixed-likelihood";
import { gatherNewColumns, gatherRows } from "./model-rows";
import { multiply, quadraticForm, unscaledCovariance } from "./orthogonal-solve";
import { RegressionError } from "./regression-error";
import { setAsideWords } from "./statement";
import type { MixedModelInput, MixedModel } from "./mixed-model-result";
import { scatterIntervals } from "./scatter-intervals";
import { readingOf } from "./mixed-model-reading";

/**
 * Ratio of the scatters between and within studies beyond which the tests of a study are equal but
 * for rounding.
 */
const ENDLESS = 1e6;

/**
 * Linear mixed model with a random study effect, y = X b + u_study + e, by restricted maximum
 * likelihood.
 *
 * The t-values of a coefficient take n - studies - (columns that vary within studies) degrees of
 * freedom when its column varies within studies, else studies - (columns that do not vary within,
 * the intercept among them) (Pinheiro and Bates 2000, section 2.4). The intercept takes the latter
 * too, unlike theirs: its error is mostly that of the studies, and two studies of twenty tests know
 * a mean to 1 degree of freedom, not to 38. Intervals of the two SDs are by profile likelihood.
 *
 * @throws RegressionError one_study (fewer than two studies, no study with two rows, or no more
 *   studies than columns that do not vary within them), too_few_rows, no_convergence (no scatter
 *   within studies); RankDeficientError
 * @example
 * mixedModel({ y: ratio, columns: { bar_diameter_mm }, studies: study_id }).intraclassCorrelation
 */
export function mixedModel(input: MixedModelInput): MixedModel {
  const confidence = requireShare(input.confidence ?? 0.95, "confidence");
  if (input.studies.length !== input.y.length)
    throw new RegressionError(
      "unequal_lengths",
      `The studies have ${input.studies.length} rows, expected ${input.y.length} as in y`,
    );
  const model = gatherRows({ ...input, reject: blankLabel(input.studies) });
  const labels = [...new Set(Array.from(model.rows, (i) => input.studies[i]!))];
  const number = new Map(labels.map((label, g) => [label, g]));
  const study = Int32Array.from(model.rows, (i) => number.get(input.studies[i]!)!);
  const sizes = new Int32Array(labels.length);
  for (const g of study) sizes[g] = sizes[g]! + 1;
  const p = model.columns.length;
  if (labels.length < 2)
    throw new RegressionError(
      "one_study",
      `A study effect needs at least 2 studies: got ${labels.length}`,
    );
  if (labels.length === model.n)
    throw new RegressionError(
      "one_study",
      `Every one of the ${model.n} studies has a single row: expected at least one study with 2 rows, since within- and between-study variance cannot both be estimated otherwise`,
    );
  if (model.n < p + 2)
    throw new RegressionError(
      "too_few_rows",
      `The model has ${p} coefficients and 2 variances, and ${model.n} usable rows: expected at least ${p + 2}`,
    );
  const rows: MixedRows = { y: model.y, columns: model.columns, names: model.names, study, sizes };
  const restricted = (input.method ?? "reml") === "reml";
  const varies = model.columns.map((column) => variesWithin(rows, column));
  const inner = varies.filter(Boolean).length;
  const outer = p - inner;
  solutionAt(rows, 0); // Names dependent columns before the search.
  if (labels.length <= outer)
    throw new RegressionError(
      "one_study",
      `${model.names
        .filter((_, j) => !varies[j])
        .map((name) => `"${name}"`)
        .join(
          " and ",
        )} ${outer === 1 ? "does" : "do"} not vary within a study, and ${labels.length} studies leave no degree of freedom for the scatter between studies: expected at least ${outer + 1} studies`,
    );
  const ratio = maximiseOnHalfLine((r) => mixedLogLikelihood(rows, r, restricted));
  const solution = solutionAt(rows, ratio);
  const best = {
    ratio,
    solution,
    logLikelihood: mixedLogLikelihood(rows, ratio, restricted),
    residualVariance: solution.residualSumOfSquares / (model.n - (restricted ? p : 0)),
  };
  // The search for the ratio of the two scatters then runs to its end.
  if (!(best.residualVariance > 0) || ratio > ENDLESS)
    throw new RegressionError(
      "no_convergence",
      "The columns and studies fit every value exactly: expected some scatter within studies",
    );
  const within = Math.sqrt(best.residualVariance);
  const between = ratio * within;
  const covariance = unscaledCovariance(best.solution.inverseR).map((row) =>
    row.map((v) => v * best.residualVariance),
  );
  const coefficients = model.names.map((name, j) =>
    coefficientOf(
      name,
      best.solution.estimates[j]!,
      Math.sqrt(covariance[j]![j]!),
      Math.max(1, varies[j] ? model.n - labels.length - inner : labels.length - outer),
      confidence,
    ),
  );
  const scatter = scatterIntervals(rows, restricted, best, confidence);
  const statistic = Math.max(0, 2 * (best.logLikelihood - mixedLogLikelihood(rows, 0, restricted)));
  const studyTest = { statistic, p: statistic === 0 ? 1 : chiSquared(1).upperTail(statistic) / 2 };
  const intraclassCorrelation = (ratio * ratio) / (1 + ratio * ratio);
  const residualMeans = studyMeans(
    rows,
    Float64Array.from(model.y, (v, i) => v - rowFit(model.columns, best.solution.estimates, i)),
  );
  const studies = labels.map((label, g) => ({
    study: label,
    n: sizes[g]!,
    effect: ((sizes[g]! * ratio * ratio) / (1 + sizes[g]! * ratio * ratio)) * residualMeans[g]!,
  }));
  const response = input.response ?? "y";
  const [one, several] = input.unit ?? ["study", "studies"];
  const basis = `${counted(model.n, "row")} in ${counted(labels.length, one, several)}${setAsideWords(model.excluded)}`;
  return {
    coefficients,
    covariance,
    confidence,
    intraclassCorrelation,
    studyTest,
    studies,
    logLikelihood: best.logLikelihood,
    betweenStudySd: { estimate: between, ...scatter.between },
    withinStudySd: { estimate: within, ...scatter.within },
    method: `Linear mixed model with a random ${one} effect, ${restricted ? "restricted " : ""}maximum likelihood`,
    assumptions: [
      `${several} are a random sample of all possible ${several}`,
      `${one} effects and errors are normal, each with constant scatter`,
      `the ${one} effect shifts the whole line of a ${one}`,
    ],
    n: model.n,
    excluded: model.excluded,
    warnings: [
      ...(labels.length < 5
        ? [
            `Only ${labels.length} ${several}: the scatter between ${several} is poorly estimated with fewer than 5 (common practice, no source)`,
          ]
        : []),
      ...(ratio === 0
        ? [
            `The estimate of the scatter between ${several} is at its limit of 0, which does not show that ${several} agree`,
          ]
        : []),
    ],
    reading: readingOf(
      response,
      coefficients,
      { between, ...scatter.between },
      within,
      intraclassCorrelation,
      studyTest.p,
      confidence,
      basis,
      [one, several],
    ),
    coefficient: (name) => namedCoefficient(coefficients, name),
    predict: (columns) => {
      const gathered = gatherNewColumns(model.names, columns);
      const fitted = multiply(gathered, best.solution.estimates);
      const t = twoSidedQuantile(confidence, labels.length - outer);
      const half = (extra: number): Float64Array =>
        fitted.map((v, i) =>
          Number.isNaN(v) ? NaN : t * Math.sqrt(quadraticForm(gathered, i, covariance) + extra),
        );
      const ofMean = half(0);
      const ofNew = half(between * between + within * within);
      return {
        fitted,
        meanLower: fitted.map((v, i) => v - ofMean[i]!),
        meanUpper: fitted.map((v, i) => v + ofMean[i]!),
        newStudyLower: fitted.map((v, i) => v - ofNew[i]!),
        newStudyUpper: fitted.map((v, i) => v + ofNew[i]!),
      };
    },
  };
}

function rowFit(columns: readonly Float64Array[], b: Float64Array, i: number): number {
  return columns.reduce((sum, column, j) => sum + column[i]! * b[j]!, 0);
}

function variesWithin(rows: MixedRows, column: Float64Array): boolean {
  const first = new Map<number, number>();
  return column.some((value, i) => {
    const known = first.get(rows.study[i]!);
    if (known === undefined) first.set(rows.study[i]!, value);
    return known !== undefined && known !== value;
  });
}
