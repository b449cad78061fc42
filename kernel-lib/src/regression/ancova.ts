import { f } from "../statistics/distributions/f";
import { choleskyInPlace, choleskySolveInPlace } from "../statistics/linear-algebra";
import { counted, intervalWords, percent, pWords, significant } from "../statistics/reading";
import { requireShare } from "./bands";
import { coefficientOf, twoSidedP, type Coefficient } from "./coefficient-table";
import { isTold } from "./least-squares-reading";
import { leastSquares, type LeastSquaresFit } from "./least-squares";
import { type NumericColumn } from "./model-rows";
import { RegressionError } from "./regression-error";
import type { StandardErrorMethod } from "./sandwich";
import { setAsideWords, type RegressionStatement } from "./statement";

export interface AncovaInput {
  readonly y: NumericColumn;
  /** The variable along which the classes are compared, such as the bar diameter. */
  readonly x: NumericColumn;
  /** Class of each row, such as the bar material; a blank one sets the row aside. */
  readonly groups: ArrayLike<string>;
  /**
   * "log" takes the natural logarithm of y: slopes and gaps are then those of the log ratio.
   * Default "identity".
   */
  readonly scale?: "identity" | "log";
  readonly weights?: NumericColumn;
  readonly standardErrors?: StandardErrorMethod;
  readonly confidence?: number;
  readonly response?: string;
  readonly variable?: string;
}

/** A comparison of two classes: first less second. */
export interface ClassDifference extends Coefficient {
  readonly first: string;
  readonly second: string;
}

/** The gap between two classes at one x; `ratio` with its interval on the log scale, else null. */
export interface ClassGap extends ClassDifference {
  readonly x: number;
  readonly ratio: {
    readonly estimate: number;
    readonly lower: number;
    readonly upper: number;
  } | null;
}

export interface ClassLine {
  readonly group: string;
  readonly n: number;
  readonly slope: Coefficient;
  /** Mean of y (or of ln y) at x = 0. */
  readonly intercept: Coefficient;
}

export interface Ancova extends RegressionStatement {
  readonly scale: "identity" | "log";
  readonly confidence: number;
  readonly lines: readonly ClassLine[];
  /** Differences of slopes, each pair once; p-values are not adjusted for the number of pairs. */
  readonly slopeDifferences: readonly ClassDifference[];
  /** Test that all classes share one slope. */
  readonly equalSlopes: {
    readonly f: number;
    readonly numeratorDf: number;
    readonly denominatorDf: number;
    readonly p: number;
  };
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  readonly fit: LeastSquaresFit;
  /** Gap first - second at an x. */
  gapAt(first: string, second: string, x: number): ClassGap;
}

/**
 * Analysis of covariance with interaction: one line a class, one residual scatter,
 * y = a_g + b_g x + error. Answers whether the gap between classes changes with x.
 *
 * The equal-slopes test is the Wald F test on the difference of slopes; with classical standard
 * errors it is the usual nested F test.
 *
 * @throws RegressionError one_class (fewer than two classes), not_positive (log scale),
 *   too_few_rows; RankDeficientError when a class has a single x
 * @example ancova({ y: ratio, x: bar_diameter_mm, groups: bar_material, scale: "log" }).reading
 */
export function ancova(input: AncovaInput): Ancova {
  const scale = input.scale ?? "identity";
  const confidence = requireShare(input.confidence ?? 0.95, "confidence");
  const total = input.y.length;
  if (input.groups.length !== total)
    throw new RegressionError(
      "unequal_lengths",
      `The groups have ${input.groups.length} rows, expected ${total} as in y`,
    );
  const y = Float64Array.from(input.y, (value, i) => {
    if (scale === "log" && value <= 0)
      throw new RegressionError(
        "not_positive",
        `y of row ${i} is ${value}: the log scale needs values above 0`,
      );
    return scale === "log" ? Math.log(value) : input.groups[i] === "" ? NaN : value;
  });
  const usable = (i: number): boolean =>
    Number.isFinite(y[i]) &&
    Number.isFinite(input.x[i]) &&
    input.groups[i] !== "" &&
    (input.weights === undefined || input.weights[i] !== 0);
  const groups = [
    ...new Set(
      Array.from({ length: total }, (_, i) => i)
        .filter(usable)
        .map((i) => input.groups[i]!),
    ),
  ];
  if (groups.length < 2)
    throw new RegressionError(
      "one_class",
      `An analysis of covariance compares classes: got ${counted(groups.length, "class", "classes")}, expected at least 2`,
    );
  const columns: Record<string, Float64Array> = {};
  const variable = input.variable ?? "x";
  for (const group of groups)
    columns[`class ${group}`] = Float64Array.from({ length: total }, (_, i) =>
      input.groups[i] === group ? 1 : input.groups[i] === "" ? NaN : 0,
    );
  for (const group of groups)
    columns[`${variable} in class ${group}`] = Float64Array.from({ length: total }, (_, i) =>
      input.groups[i] === group ? input.x[i]! : Number.isFinite(input.x[i]) ? 0 : NaN,
    );
  const fit = leastSquares({
    y,
    columns,
    intercept: false,
    confidence,
    ...(input.weights === undefined ? {} : { weights: input.weights }),
    ...(input.standardErrors === undefined ? {} : { standardErrors: input.standardErrors }),
  });
  const count = groups.length;
  const df = fit.coefficients[0]!.degreesOfFreedom;
  const exact = fit.coefficients.every((c) => c.t === null);
  const contrast = (weights: ReadonlyMap<number, number>, name: string): Coefficient => {
    let estimate = 0;
    let variance = 0;
    for (const [i, a] of weights) {
      estimate += a * fit.coefficients[i]!.estimate;
      for (const [j, b] of weights) variance += a * b * fit.covariance[i]![j]!;
    }
    return coefficientOf(name, estimate, Math.sqrt(Math.max(variance, 0)), df, confidence, exact);
  };
  const indexOf = (group: string): number => {
    const index = groups.indexOf(group);
    if (index < 0)
      throw new RegressionError(
        "missing_column",
        `There is no class "${group}"; expected one of ${groups.map((g) => `"${g}"`).join(", ")}`,
      );
    return index;
  };
  const lines = groups.map((group, g) => ({
    group,
    n: fit.rows.reduce((sum, row) => sum + (input.groups[row] === group ? 1 : 0), 0),
    intercept: fit.coefficients[g]!,
    slope: fit.coefficients[count + g]!,
  }));
  const slopeDifferences = groups.flatMap((first, i) =>
    groups.slice(i + 1).map((second, k) => ({
      ...contrast(
        new Map([
          [count + i, 1],
          [count + i + 1 + k, -1],
        ]),
        `slope of ${first} less slope of ${second}`,
      ),
      first,
      second,
    })),
  );
  const equalSlopes = equalSlopesTest(fit, count, df);
  const gapAt = (first: string, second: string, x: number): ClassGap => {
    const [i, j] = [indexOf(first), indexOf(second)];
    const gap = contrast(
      new Map([
        [i, 1],
        [j, -1],
        [count + i, x],
        [count + j, -x],
      ]),
      `${first} less ${second} at ${variable} = ${significant(x)}`,
    );
    const ratio =
      scale === "log"
        ? {
            estimate: Math.exp(gap.estimate),
            lower: Math.exp(gap.lower),
            upper: Math.exp(gap.upper),
          }
        : null;
    return { ...gap, first, second, x, ratio };
  };
  return {
    scale,
    confidence,
    lines,
    slopeDifferences,
    equalSlopes,
    residualSd: fit.residualSd,
    degreesOfFreedom: fit.degreesOfFreedom,
    fit,
    gapAt,
    method: `Analysis of covariance with interaction${scale === "log" ? " on ln of the response" : ""}; ${fit.method}`,
    assumptions: [
      `within each class the mean of ${scale === "log" ? "ln y" : "y"} is a straight line in ${variable}`,
      ...fit.assumptions.slice(1),
    ],
    n: fit.n,
    setAside: fit.setAside,
    warnings: [
      ...fit.warnings,
      ...lines
        .filter((l) => l.n < 4)
        .map((l) => `Class ${l.group} has only ${counted(l.n, "row")}: its slope is hardly told`),
    ],
    reading: readingOf(slopeDifferences, equalSlopes.p, {
      scale,
      confidence,
      variable,
      response: input.response ?? "y",
      basis: `${counted(fit.n, "row")}${setAsideWords(fit.setAside)}`,
      exact,
    }),
  };
}

/** Wald F of b_1 = b_2 = ... from the coefficients' covariance. */
function equalSlopesTest(fit: LeastSquaresFit, count: number, df: number): Ancova["equalSlopes"] {
  const m = count - 1;
  const base = count;
  const difference = Float64Array.from(
    { length: m },
    (_, k) => fit.coefficients[base + k + 1]!.estimate - fit.coefficients[base]!.estimate,
  );
  const c = (i: number, j: number): number => fit.covariance[base + i]![base + j]!;
  const matrix = Array.from({ length: m }, (_, i) =>
    Float64Array.from(
      { length: m },
      (_v, j) => c(i + 1, j + 1) - c(0, j + 1) - c(i + 1, 0) + c(0, 0),
    ),
  );
  const solved = solveSymmetric(matrix, difference);
  const wald =
    solved === null ? NaN : difference.reduce((sum, d, i) => sum + d * solved[i]!, 0) / m;
  if (!(wald >= 0))
    throw new RegressionError(
      "one_study",
      `The covariance of the ${count} slopes is singular, so equal slopes cannot be tested: expected more clusters than classes, or classical standard errors`,
    );
  if (m === 1)
    return { f: wald, numeratorDf: 1, denominatorDf: df, p: twoSidedP(Math.sqrt(wald), df) };
  return { f: wald, numeratorDf: m, denominatorDf: df, p: f(m, df).upperTail(wald) };
}

function solveSymmetric(matrix: readonly Float64Array[], b: Float64Array): Float64Array | null {
  const p = b.length;
  const flat = new Float64Array(p * p);
  matrix.forEach((row, i) => {
    flat.set(row, i * p);
  });
  if (!choleskyInPlace(flat, p)) return null;
  const x = Float64Array.from(b);
  choleskySolveInPlace(flat, p, x);
  return x;
}

interface Words {
  readonly scale: "identity" | "log";
  readonly confidence: number;
  readonly variable: string;
  readonly response: string;
  readonly basis: string;
  readonly exact: boolean;
}

function readingOf(differences: readonly ClassDifference[], p: number, words: Words): string {
  const { variable, basis } = words;
  const response = words.scale === "log" ? `ln ${words.response}` : words.response;
  if (words.exact)
    return `Each class's line meets its values to rounding, so no scatter can be judged (${basis}).`;
  const d = differences[0]!;
  if (differences.length === 1) {
    const numbers = `${intervalWords(d.lower, d.upper, words.confidence)}, ${pWords(d.p)}; ${basis}`;
    if (isTold(d))
      return `The gap in ${response} between ${d.first} and ${d.second} changes with ${variable}: the slope of ${d.first} is ${significant(Math.abs(d.estimate))} a unit ${d.estimate > 0 ? "higher" : "lower"} (${numbers}).`;
    return `These data cannot tell whether the gap in ${response} between ${d.first} and ${d.second} changes with ${variable}: the slopes may still differ by anything from ${significant(d.lower)} to ${significant(d.upper)} a unit (${numbers}).`;
  }
  if (p < 1 - words.confidence) {
    const told = differences.filter(isTold);
    const which =
      told.length === 0
        ? "no single pair stands out"
        : told
            .map(
              (t) =>
                `${t.first} less ${t.second} ${significant(t.estimate)} (${intervalWords(t.lower, t.upper, words.confidence)})`,
            )
            .join("; ");
    return `The classes' slopes of ${response} on ${variable} differ (F test, ${pWords(p)}; ${basis}): ${which}, not adjusted for ${differences.length} comparisons.`;
  }
  const low = Math.min(...differences.map((t) => t.lower));
  const high = Math.max(...differences.map((t) => t.upper));
  return `These data cannot tell whether the classes' slopes of ${response} on ${variable} differ (F test, ${pWords(p)}; ${basis}): pairwise differences from ${significant(low)} to ${significant(high)} a unit are within their ${percent(words.confidence)} intervals.`;
}
