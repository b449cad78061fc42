import type { TestTable } from "../../dataset";
import { normal } from "../../statistics";
import type { Evidence } from "../comparison";

/** One test of a group: a ratio with the series and the study it belongs to. */
export interface GroupTest {
  readonly ratio: number;
  /** True when the ratio is only a lower bound. */
  readonly lowerBound: boolean;
  readonly series: string;
  readonly study: string;
  /** Row of the table of tests. */
  readonly row: number;
}

/** The single tests of a group, and the rows that hide some. */
export interface TestsOfGroup {
  readonly tests: readonly GroupTest[];
  /**
   * Rows that are means of several specimens and report no SD: the scatter of single tests is not
   * seen.
   */
  readonly meansWithoutSd: number;
  /** Rows that are means of several specimens with an SD: each stands for its specimens. */
  readonly meansWithSd: number;
}

/**
 * The tests behind the rows of a group. A row that is a mean of m specimens with a reported SD
 * becomes m values that have this mean and this SD (at normal scores), which holds all that a
 * normal sample says; a mean without SD stays one value and is counted, since the scatter that it
 * shows is that of means.
 * @example testsOfGroup(comparison.evidence, comparison.tests).meansWithoutSd
 */
export function testsOfGroup(evidence: readonly Evidence[], table: TestTable): TestsOfGroup {
  const [series, studies] = [table.texts("series_id"), table.texts("study_id")];
  const [replicates, deviations] = [table.numbers("replicates"), table.numbers("load_sd_kN")];
  let [meansWithoutSd, meansWithSd] = [0, 0];
  const tests = evidence.flatMap(({ row, ratio, load, bound }): GroupTest[] => {
    const one = {
      ratio,
      lowerBound: bound,
      series: series[row] ?? "",
      study: studies[row] ?? "",
      row,
    };
    const count = replicates[row] ?? NaN;
    if (!(count > 1) || bound) return [one];
    const cov = (deviations[row] ?? NaN) / load;
    if (!(cov >= 0)) {
      meansWithoutSd += 1;
      return [one];
    }
    meansWithSd += 1;
    return standardScores(Math.round(count)).map((score) => ({
      ...one,
      ratio: ratio * (1 + cov * score),
    }));
  });
  return { tests, meansWithoutSd, meansWithSd };
}

/** m normal scores with mean 0 and sample SD 1. */
function standardScores(m: number): number[] {
  const scores = Array.from({ length: m }, (_, i) => normal().quantile((i + 0.625) / (m + 0.25)));
  const squares = scores.reduce((sum, score) => sum + score * score, 0);
  return scores.map((score) => score / Math.sqrt(squares / (m - 1)));
}
