import type { RatioGroup, Verdict, VerdictWord } from "../../comparison";
import { proseBundle } from "../results/prose";
import type { EvidenceColumn, EvidenceRow } from "./evidence-row";
import type { GroupedRows } from "./found-groups";

/** One group of ratios with its numbers; null where the group cannot give them. */
export class Group<K extends EvidenceColumn = EvidenceColumn, R = GroupedRows> {
  constructor(
    private readonly found: RatioGroup,
    /** The evidence of the group. */
    readonly rows: R,
  ) {}

  get by(): Pick<EvidenceRow, K> {
    return this.found.by as Pick<EvidenceRow, K>;
  }

  get label(): string {
    return this.found.label;
  }

  /** Tests that failed in the mode. */
  get n(): number {
    return this.found.n;
  }

  /** Tests that were stopped or failed in another mode. */
  get lowerBounds(): number {
    return this.found.lowerBounds;
  }

  get series(): number {
    return this.found.series;
  }

  get studies(): number {
    return this.found.studies;
  }

  get mean(): number | null {
    return this.found.mean;
  }

  get sd(): number | null {
    return this.found.sd;
  }

  get cov(): number | null {
    return this.found.cov;
  }

  get min(): number | null {
    return this.found.min;
  }

  get meanMinus3Sd(): number | null {
    return this.found.meanMinus3Sd;
  }

  get shareBelow1(): number | null {
    return this.found.shareBelow1;
  }

  /** Intraclass correlation: share of the variance within cells that lies between series. */
  get icc(): number | null {
    return this.found.inGeneral.icc;
  }

  /** 5 % fractile (median estimate) in general. */
  get fractile(): number | null {
    return this.found.fractile;
  }

  /** Lower confidence limit of the fractile in general: the characteristic ratio. */
  get lower(): number | null {
    return this.found.lower;
  }

  get upper(): number | null {
    return this.found.upper;
  }

  /** The verdict in general. */
  get verdict(): VerdictWord {
    return this.found.verdict;
  }

  /** For the bars, concretes and adhesives of these series, series effect ignored. */
  get asTested(): Verdict {
    return this.found.asTested;
  }

  /** For a further series, series effect included. */
  get inGeneral(): Verdict {
    return this.found.inGeneral;
  }

  [Symbol.for("code-comparison.display")](): Record<string, string> {
    const told = `${this.label}: n = ${this.n}, ${this.lowerBounds} lower bounds, ${this.series} series. In general: ${this.verdict}. ${this.inGeneral.reason}`;
    return proseBundle(told);
  }
}
