import { embedmentForMode, type EmbedmentForMode, type FailureMode } from "../../provisions";
import { embedmentTable, Table } from "../../tables";
import { shortTitle } from "../comparison/comparison-tables";
import { fileName } from "../results/names";
import { Result, type Setting, type TableView } from "../results/result";
import type { AskedCode } from "./asked-code";
import { NO_ROW, rowWords, type AskedRow } from "./asked-row";

/** What is asked of the other modes. */
export interface EmbedmentOptions {
  /** By how much every other load must exceed that of the mode, relative: 0.2 is 20 %; default 0. */
  readonly margin?: number;
  /** Largest load that the grip can apply, kN. */
  readonly grip_kN?: number;
}

/**
 * The embedments at which a mode governs one row by a margin over every other mode, rupture, yield
 * and the grip.
 * @example study.where({ test_id: "IH-075-1" }).embedmentFor("bond", "aci318-19", { margin: 0.2, grip_kN: 120 }).findings()
 */
export class Embedments extends Result<"embedments"> {
  /** The ranges as the provisions give them; null where no row with one load was chosen. */
  readonly found: EmbedmentForMode | null;

  constructor(
    protected readonly setting: Setting,
    private readonly asked: AskedRow | null,
    private readonly by: AskedCode,
    private readonly mode: FailureMode,
    private readonly options: EmbedmentOptions,
  ) {
    super();
    const both = asked?.table.text(0, "action") === "tension_and_shear";
    this.found =
      asked === null || both
        ? null
        : embedmentForMode(by.code, asked.table, 0, mode, {
            ...by.settings,
            above: options.margin ?? 0,
            ...(options.grip_kN === undefined ? {} : { gripLoad_N: 1000 * options.grip_kN }),
          });
  }

  get name(): string {
    return fileName("embedment for", this.mode, this.asked?.id ?? "", this.by.code.id);
  }

  get answer(): string {
    if (this.asked === null) return NO_ROW;
    const of = `${rowWords(this.asked)} by ${shortTitle(this.by.code)}, ${this.by.settings.level} level`;
    if (this.found === null)
      return `${of}: a specimen in tension and shear has no governing mode in a single action, so no embedment is found.`;
    const { grip_kN } = this.options;
    return `${of}${grip_kN === undefined ? "" : `, grip up to ${grip_kN} kN`}. ${this.found.reading}`;
  }

  protected sentences(): readonly string[] {
    const best = this.found?.best;
    const mm = (value: number): number => Number(value.toPrecision(4));
    return [
      this.answer,
      ...(best && Number.isFinite(best.margin) && this.found.intervals.length > 0
        ? [
            `The largest margin is ${(100 * best.margin).toFixed(1)} % at ${mm(best.embedment)} mm, where ${best.rival ?? "nothing"} comes next.`,
          ]
        : []),
      "Loads are point predictions: a margin is not a probability, and scatter can reverse the order.",
    ];
  }

  protected tableViews(): Readonly<Record<"embedments", TableView>> {
    return {
      embedments: {
        title: `Embedment for ${this.mode.replaceAll("_", " ")}, ${this.asked?.id ?? "no row"}, ${shortTitle(this.by.code)}`,
        caption: this.answer,
        make: (text) => {
          if (this.found !== null) return embedmentTable(this.found, text);
          const columns = [{ key: "from", title: "embedment from", kind: "number" as const }];
          return new Table({ ...text, rowKey: ["from"], columns, rows: [] });
        },
      },
    };
  }
}
