import { percent } from "../../statistics/reading";
import { count } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";

/** What the answer counts of each comparison. */
export interface DifferenceLine {
  /** Compared over reference; null where there is no comparison. */
  readonly ratio: number | null;
  /** p after Holm's correction over all lines of one call. */
  readonly pAdjusted: number | null;
  /** p of equivalence within the margin. */
  readonly pEquivalence: number | null;
  /** Smallest difference found with power 0.8, as a share of the reference. */
  readonly detectable: number | null;
}

/** What makes a set of differences. */
export interface DifferencesContent {
  readonly name: string;
  /** "median ratio of 5 modes, FRP against steel": what is compared. */
  readonly subject: string;
  readonly margin: number;
  readonly confidence: number;
  readonly lines: readonly DifferenceLine[];
  /** Pairs that could not be compared. */
  readonly notCompared: number;
  /** Why there is no line at all, where there is none. */
  readonly nothing: string;
  readonly sentences: readonly string[];
  readonly tables: Readonly<Record<"differences" | "power", TableView>>;
  readonly figures: Readonly<Record<"intervals" | "power", FigureView>>;
}

/**
 * Differences of groups from a reference, with Holm's correction over all lines of one call.
 * @example study.compare("aci318-19").by("mode").versus("steel").findings()
 */
export class Differences extends DrawnResult<"intervals" | "power", "differences" | "power"> {
  constructor(
    protected readonly setting: Setting,
    private readonly content: DifferencesContent,
  ) {
    super();
  }

  get name(): string {
    return this.content.name;
  }

  get answer(): string {
    const { lines, margin, confidence, subject, notCompared, nothing } = this.content;
    const known = lines.filter(({ pAdjusted }) => pAdjusted !== null);
    const without = notCompared === 0 ? "" : `; ${count(notCompared, "pair")} not compared`;
    if (known.length === 0) {
      return `No comparison of the ${subject}${without || `: ${nothing}`}.`;
    }
    const level = 1 - confidence;
    const significant = known.filter(({ pAdjusted }) => pAdjusted! < level);
    const lower = significant.filter(({ ratio }) => (ratio ?? 1) < 1).length;
    const same = known.filter(({ pEquivalence }) => (pEquivalence ?? 1) < level).length;
    return `${count(known.length, "comparison")} of the ${subject}, Holm-adjusted at ${percent(level)}: ${lower} lower, ${significant.length - lower} higher, ${known.length - significant.length} without a significant difference; ${same} shown equivalent within ±${percent(margin)} (each tested separately)${this.sizeOfDifference()}${without}.`;
  }

  protected sentences(): readonly string[] {
    const { sentences } = this.content;
    return sentences.length === 0 ? [this.answer] : sentences;
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return this.content.tables;
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return this.content.figures;
  }

  /** What a typical comparison could have found. */
  private sizeOfDifference(): string {
    const known = this.content.lines
      .flatMap(({ detectable }) => (detectable === null ? [] : [detectable]))
      .filter((one) => !Number.isNaN(one))
      .sort((a, b) => a - b);
    const typical = known[Math.floor(known.length / 2)];
    return typical === undefined
      ? ""
      : `; a typical comparison detects a difference of at least ${percent(typical, 0)} of the reference with power 0.8`;
  }
}
