import type { RatioGroup, Verdict } from "../../comparison";

/** One group for `--format json`. */
export function groupJson(group: RatioGroup): Record<string, unknown> {
  const { inGeneral } = group;
  return {
    by: group.by,
    n: group.n,
    n_lower_bounds: group.lowerBounds,
    series: group.series,
    studies: group.studies,
    mean: group.mean,
    sd: group.sd,
    cov: group.cov,
    min: group.min,
    mean_minus_3sd: group.meanMinus3Sd,
    k: group.k,
    share_below_1: group.shareBelow1,
    distribution: group.distribution,
    fractile: group.fractile,
    lower: group.lower,
    upper: group.upper,
    icc: inGeneral.icc,
    as_tested: verdictJson(group.asTested),
    in_general: {
      ...verdictJson(inGeneral),
      cell: inGeneral.cell,
      cell_columns: inGeneral.cellColumns,
      cells: inGeneral.cells.map(
        ({ cell, n, lowerBounds, series, judged, mean, cov, fractile, lower, upper }) => ({
          cell,
          n,
          n_lower_bounds: lowerBounds,
          series,
          judged,
          mean,
          cov,
          fractile,
          lower,
          upper,
        }),
      ),
      pooled: inGeneral.pooled,
      other_distribution:
        inGeneral.otherDistribution === null
          ? null
          : {
              distribution: inGeneral.otherDistribution.distribution,
              ...verdictJson(inGeneral.otherDistribution),
            },
      residual_fit_p: inGeneral.residualFit,
    },
    verdict: group.verdict,
    reason: group.reason,
    ...(group.bias === null ? {} : { bias: group.bias }),
    not_judged: group.notJudged,
  };
}

function verdictJson({
  verdict,
  fractile,
  lower,
  upper,
  reason,
}: Verdict): Record<string, unknown> {
  return { verdict, fractile, lower, upper, reason };
}
