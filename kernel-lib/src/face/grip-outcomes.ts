import { valueWords, type BetterGrip, type GripMargins } from "../comparison";
import { significant } from "../statistics/reading";
import { betterGripTable, gripMarginTable } from "../tables";
import { count, fileName } from "./results/names";
import { Result, type Setting, type TableView } from "./results/result";

/** The comparison that margins and outcomes rest on. */
export interface GripBasis {
  /** File name of the grips and the code. */
  readonly source: string;
  /** Code and level, as titles print them. */
  readonly words: string;
}

/**
 * The margin over the predicted load of a mode that each grip needs, and the embedments it allows.
 * @example study.grips().marginFor("bond", "aci318-19").findings()
 */
export class RequiredGripMargin extends Result<"embedments"> {
  constructor(
    protected readonly setting: Setting,
    private readonly found: GripMargins,
    private readonly basis: GripBasis,
  ) {
    super();
  }

  get name(): string {
    return fileName(this.basis.source, this.found.mode);
  }

  get answer(): string {
    const { margins, mode } = this.found;
    const known = margins.flatMap(({ margin }) => (margin === null ? [] : [margin]));
    const [low, high] = [Math.min(...known), Math.max(...known)].map((one) => significant(one));
    const words = valueWords(mode);
    if (known.length === 0)
      return `No margin over ${words} can be estimated (${this.basis.words}): ${margins[0]?.reason ?? "no test in tension names its grip"}.`;
    const range = low === high ? low : `${low} to ${high}`;
    const withEmbedments = margins.filter(({ reaches }) => reaches.length > 0).length;
    return `To show ${words}, a grip must carry ${range} times the predicted ${words} load, depending on the bar (${this.basis.words}); embedments follow for ${withEmbedments} of ${count(margins.length, "kind")} of grip and bar.`;
  }

  protected sentences(): readonly string[] {
    return [this.answer, ...this.found.margins.map(({ reading }) => reading)];
  }

  protected tableViews(): Readonly<Record<"embedments", TableView>> {
    return {
      embedments: {
        title: `Maximum embedment at which a grip permits ${valueWords(this.found.mode)}, ${this.basis.words}`,
        caption: "Unconfined single bars away from edges.",
        make: (text) => gripMarginTable(this.found, text),
      },
    };
  }
}

/**
 * What a grip that does not break the bar would have shown.
 * @example study.grips().betterGrip("aci318-19", { confinedBondFactor: 0.75 }).answer
 */
export class BetterGripOutcome extends Result<"tests"> {
  constructor(
    protected readonly setting: Setting,
    private readonly found: BetterGrip,
    private readonly basis: GripBasis,
  ) {
    super();
  }

  get name(): string {
    return fileName(this.basis.source, "better grip");
  }

  get answer(): string {
    return this.found.reading;
  }

  protected sentences(): readonly string[] {
    return [
      this.answer,
      ...this.found.notPredicted.map(({ reason, n }) => `Not predicted: ${n} (${reason}).`),
      ...this.found.modesLeftOut.map(({ reason, n }) => `Mode omitted in ${n}: ${reason}.`),
    ];
  }

  protected tableViews(): Readonly<Record<"tests", TableView>> {
    return {
      tests: {
        title: `Predicted results with a better grip, ${this.basis.words}`,
        caption: `${count(this.found.tests.length, "bar")} that broke in the grip.`,
        make: (text) => betterGripTable(this.found, text),
      },
    };
  }
}
