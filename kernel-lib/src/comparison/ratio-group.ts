import type { CountedStatus } from "./account";
import type { Evidence } from "./comparison";
import type { InGeneral } from "./judging/judge-group";
import type { Distribution, Verdict, VerdictWord } from "./judging/question";
import type { BiasOfModel } from "./bias-of-model";

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

/** One group of ratios with its numbers; null where the group cannot give them. */
export interface RatioGroup {
  readonly by: Readonly<Record<string, string | number | null>>;
  readonly label: string;
  readonly evidence: readonly Evidence[];
  /** Tests that failed in the mode. */
  readonly n: number;
  /** Tests that are lower bounds only. */
  readonly lowerBounds: number;
  /** Series with at least one failure in the mode, and studies. */
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
