import { counted, significant } from "../statistics/reading";
import { requireShare } from "./bands";
import { coefficientOf, type Coefficient } from "./coefficient-table";
import { leastSquares } from "./least-squares";
import { RegressionError } from "./regression-error";
import { setAsideWords } from "./statement";
import type { AncovaInput, Ancova, ClassGap } from "./ancova-result";
import { equalSlopesTest } from "./equal-slopes";
import { readingOf } from "./ancova-reading";

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
        `slope of ${first} minus slope of ${second}`,
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
    excluded: fit.excluded,
    warnings: [
      ...fit.warnings,
      ...lines
        .filter((l) => l.n < 4)
        .map(
          (l) => `Class ${l.group} has only ${counted(l.n, "row")}: its slope is poorly estimated`,
        ),
    ],
    reading: readingOf(slopeDifferences, equalSlopes.p, {
      scale,
      confidence,
      variable,
      response: input.response ?? "y",
      basis: `${counted(fit.n, "row")}${setAsideWords(fit.excluded)}`,
      exact,
    }),
  };
}
