import {
  keyReader,
  labelWords,
  testsOfGroup,
  type Comparison,
  type RatioGroup,
} from "../comparison";
import { normal } from "../statistics";
import type { QqInput } from "./residual-plots";

/**
 * Residuals of a group's failures about the means of its cells, ordered beside normal quantiles, as
 * input of `qq`: the values whose fit the group's distribution is judged by
 * (`inGeneral.residualFit`). For a normal distribution ratio/cell mean (constant COV), for a
 * lognormal one ln(ratio/cell mean); the cell mean is the geometric mean of its failures, every
 * series with one weight. Quantiles at (i − 3/8)/(n + 1/4) (Blom 1958, from memory).
 * @example
 * qq({ id: "residuals-bond", title: "…", caption: "…", ...residualsOf(comparison, group) })
 */
export function residualsOf(
  comparison: Comparison,
  group: RatioGroup,
  distribution: RatioGroup["distribution"] = group.distribution,
): Pick<QqInput, "theoretical" | "sample" | "line" | "yTitle"> {
  const { cellColumns } = group.inGeneral;
  const read = keyReader(comparison, cellColumns);
  const cellOf = new Map(
    group.evidence.map((one) => [
      one.row,
      read(one)
        .map((value, k) => labelWords(cellColumns[k]!, value))
        .join(", "),
    ]),
  );
  const failed = testsOfGroup(group.evidence, comparison.tests).tests.filter(
    ({ lowerBound }) => !lowerBound,
  );
  const logs = new Map<string, Map<string, number[]>>();
  for (const { row, series, ratio } of failed) {
    const cell = logs.get(cellOf.get(row)!) ?? new Map<string, number[]>();
    logs.set(cellOf.get(row)!, cell.set(series, [...(cell.get(series) ?? []), Math.log(ratio)]));
  }
  const means = new Map(
    [...logs].map(([cell, series]) => [cell, mean([...series.values()].map(mean))]),
  );
  const lognormal = distribution === "lognormal";
  const sample = failed
    .map(({ row, ratio }) => Math.log(ratio) - means.get(cellOf.get(row)!)!)
    .map((one) => (lognormal ? one : Math.exp(one)))
    .sort((a, b) => a - b);
  const n = sample.length;
  const intercept = mean(sample);
  const slope = Math.sqrt(
    sample.reduce((sum, one) => sum + (one - intercept) ** 2, 0) / Math.max(1, n - 1),
  );
  return {
    theoretical: sample.map((_, i) => normal().quantile((i + 0.625) / (n + 0.25))),
    sample,
    line: { slope, intercept },
    yTitle: lognormal ? "ln(ratio / cell mean) (–)" : "Ratio / cell mean (–)",
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}
