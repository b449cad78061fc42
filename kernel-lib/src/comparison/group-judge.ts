import { fitCensored, summarize } from "../statistics";
import type { CountedStatus } from "./account";
import type { Comparison, Evidence } from "./comparison";
import { keyReader } from "./group-keys";
import type { CellColumn } from "./judging/cells";
import { judgeGroup } from "./judging/judge-group";
import {
  distributionOfCode,
  type Distribution,
  type Question,
  type Verdict,
} from "./judging/question";
import { testsOfGroup } from "./judging/tests-of-group";
import { labelWords } from "./labels";
import type { RatioGroup, GroupSettings } from "./ratio-group";
import { CELL_CANDIDATES } from "./cell-candidates";
import { biasOf } from "./bias-of-model";

type Judge = (
  by: RatioGroup["by"],
  label: string,
  evidence: readonly Evidence[],
  notJudged: readonly CountedStatus[],
) => RatioGroup;

/** The judge of the groups of one comparison. */
export function groupJudge(
  comparison: Comparison,
  by: readonly string[],
  settings: GroupSettings,
): Judge {
  const {
    tests: table,
    code,
    prediction: { level },
  } = comparison;
  const { fractile = 0.05, confidence = 0.9, target = 1 } = settings;
  const question: Question = {
    fractile,
    confidence,
    target,
    distribution: settings.distribution ?? distributionOfCode(code),
  };
  const columns = (names: readonly string[], evidence: readonly Evidence[]): CellColumn[] => {
    const of = new Map(evidence.map((one) => [one.row, one]));
    return names.map((name) => {
      const read = keyReader(comparison, [name]);
      return {
        name,
        always: name === "layout",
        valueOf: (row) => labelWords(name, read(of.get(row)!)[0] ?? null),
      };
    });
  };
  const free = CELL_CANDIDATES.filter(
    (name) => !by.includes(name) && (name === "layout" || name === "mode" || table.has(name)),
  );
  return (named, label, evidence, notJudged) => {
    const { tests, meansWithoutSd } = testsOfGroup(evidence, table);
    const values = tests.filter(({ lowerBound }) => !lowerBound).map(({ ratio }) => ratio);
    const lowerBounds = tests.length - values.length;
    const plain = summarize(values);
    const moments =
      lowerBounds === 0
        ? plain
        : (momentsWithLowerBounds(
            tests.map(({ ratio }) => ratio),
            tests.map((one) => one.lowerBound),
            question.distribution,
          ) ?? plain);
    const facts = {
      n: values.length,
      min: plain.min,
      criterion: `${code.id}, ${level} level`,
      meansWithoutSd,
    };
    const judged = judgeGroup(
      tests,
      question,
      {
        stated: settings.cells ? columns(settings.cells, evidence) : null,
        candidates: columns(free, evidence),
      },
      facts,
    );
    const noCriterion = level === "expected" ? withoutCriterion(code.id) : null;
    const [asTested, inGeneral] =
      noCriterion === null
        ? [judged.asTested, judged.inGeneral]
        : [
            { ...judged.asTested, ...noCriterion },
            { ...judged.inGeneral, ...noCriterion, otherDistribution: null },
          ];
    return {
      by: named,
      label,
      evidence,
      n: values.length,
      lowerBounds,
      k: judged.k,
      series: new Set(tests.filter((one) => !one.lowerBound).map((one) => one.series)).size,
      studies: new Set(tests.map(({ study }) => study)).size,
      mean: moments.mean,
      sd: moments.sd,
      cov: moments.cov,
      min: plain.min,
      meanMinus3Sd:
        moments.mean === null || moments.sd === null ? null : moments.mean - 3 * moments.sd,
      shareBelow1:
        values.length === 0 ? null : values.filter((ratio) => ratio < 1).length / values.length,
      distribution: question.distribution,
      asTested,
      inGeneral,
      fractile: inGeneral.fractile,
      lower: inGeneral.lower,
      upper: inGeneral.upper,
      verdict: inGeneral.verdict,
      reason: inGeneral.reason,
      bias: noCriterion === null ? null : biasOf(moments, judged.general, question.distribution),
      notJudged,
    };
  };
}

/** A mean model is right when the mean ratio is 1: half of all tests then lie below it. */
function withoutCriterion(code: string): Verdict {
  return {
    verdict: "no criterion",
    fractile: null,
    lower: null,
    upper: null,
    reason: `${code} predicts mean strengths at the expected level: a 5 % fractile of 1.0 is not a criterion for mean strengths. Bias and COV are given instead.`,
  };
}

function momentsWithLowerBounds(
  values: readonly number[],
  censored: readonly boolean[],
  distribution: Distribution,
): { mean: number; sd: number; cov: number } | null {
  const fit = fitCensored({ values, censored, distribution });
  return fit.status === "ok" ? { mean: fit.mean, sd: fit.sd, cov: fit.cov } : null;
}
