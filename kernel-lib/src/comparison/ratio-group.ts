import { fitCensored, studentT, summarize } from "../statistics";
import type { CountedStatus } from "./account";
import type { Comparison, Evidence } from "./compare";
import { keyReader } from "./group-keys";
import type { CellColumn } from "./judging/cells";
import { judgeGroup, type InGeneral } from "./judging/judge-group";
import {
  distributionOfCode,
  type Distribution,
  type Question,
  type Verdict,
  type VerdictWord,
} from "./judging/question";
import type { General } from "./judging/in-general";
import { testsOfGroup } from "./judging/tests-of-group";
import { labelWords } from "./labels";

/** How groups are judged. */
export interface GroupSettings {
  /** Default 0.05. */
  readonly fractile?: number;
  /** One-sided confidence of each bound; default 0.90. */
  readonly confidence?: number;
  /** Default: that of the code's family (`distributionOfCode`). */
  readonly distribution?: Distribution;
  /** The ratio that the fractile must reach; default 1. */
  readonly target?: number;
  /**
   * Columns by which the mean ratio may differ within a group, such as `layout` or `adhesive`: each
   * cell has a mean of its own, and the verdict in general is that of the worst. Default: `layout`
   * where it varies, and those of {@link CELL_CANDIDATES} with which the mean differs.
   */
  readonly cells?: readonly string[];
}

/** Bias and scatter of a mean model, with 95 % intervals; null where they cannot be estimated. */
export interface BiasOfModel {
  readonly mean: number;
  readonly meanLower: number | null;
  readonly meanUpper: number | null;
  readonly cov: number | null;
  readonly covLower: number | null;
  readonly covUpper: number | null;
}

/** One group of ratios with its numbers; null where the group cannot give them. */
export interface RatioGroup {
  readonly by: Readonly<Record<string, string | number | null>>;
  readonly label: string;
  readonly evidence: readonly Evidence[];
  /** Tests that failed in the mode. */
  readonly n: number;
  /** Tests that are lower bounds only. */
  readonly lowerBounds: number;
  /** Series in which a test failed in the mode, and studies. */
  readonly series: number;
  readonly studies: number;
  /**
   * Mean, SD and COV: of the failures alone, or with the lower bounds by maximum likelihood when
   * there are any.
   */
  readonly mean: number | null;
  readonly sd: number | null;
  readonly cov: number | null;
  readonly min: number | null;
  readonly meanMinus3Sd: number | null;
  /**
   * Exact one-sided tolerance factor, series effect ignored; null with lower bounds, which have no
   * single factor.
   */
  readonly k: number | null;
  /** Share of the failures below 1. */
  readonly shareBelow1: number | null;
  readonly distribution: Distribution;
  /** For the bars, concretes and adhesives of these series: every test independent. */
  readonly asTested: Verdict;
  /** For a further series: series effect included, by cells. */
  readonly inGeneral: InGeneral;
  /** Fractile (median estimate) and its bounds in general, of the cell that decides. */
  readonly fractile: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  /** The verdict in general, and why. */
  readonly verdict: VerdictWord;
  readonly reason: string;
  /** Of a mean model (level `expected`), else null. */
  readonly bias: BiasOfModel | null;
  /** Pairs of this group's rows that are not judged, by reason. */
  readonly notJudged: readonly CountedStatus[];
}

/** Columns among which those are looked for by which the mean ratio of a group differs. */
export const CELL_CANDIDATES = [
  "layout",
  "adhesive",
  "cracked",
  "bar_material",
  "bar_surface",
  "bar_size",
  "setup",
  "installation",
  "concrete_type",
  "mode",
  "installation_direction",
  "hole_drilling",
  "hole_cleaning",
  "hole_moisture",
] as const;

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
    reason: `${code} predicts mean strengths at the expected level: a 5 % fractile of 1.0 is no criterion for it. Bias and COV are given instead.`,
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

/**
 * Mean ratio and COV with 95 % intervals, series effect included where 3 series failed (one cell
 * only).
 */
function biasOf(
  { mean, cov }: { readonly mean: number | null; readonly cov: number | null },
  general: General | null,
  distribution: Distribution,
): BiasOfModel | null {
  if (mean === null) return null;
  const none = { mean, meanLower: null, meanUpper: null, cov, covLower: null, covUpper: null };
  if (general === null || general.cells.length > 1 || cov === null || !(general.logSd.variance > 0))
    return none;
  const half = ({ variance, degrees }: { variance: number; degrees: number }): number =>
    studentT(degrees).quantile(0.975) * Math.sqrt(variance);
  const [ofMean, ofSd] = [half(general.mean), half(general.logSd)];
  const onLogs = distribution === "lognormal";
  const [meanLower, meanUpper] = onLogs
    ? [mean * Math.exp(-ofMean), mean * Math.exp(ofMean)]
    : [mean - ofMean, mean + ofMean];
  return {
    mean,
    meanLower,
    meanUpper,
    cov,
    covLower: cov * Math.exp(-ofSd),
    covUpper: cov * Math.exp(ofSd),
  };
}
