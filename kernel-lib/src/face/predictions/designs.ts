import {
  compareDesigns,
  designFindings,
  environmentalFactorOfBar,
  type CodeDefinition,
  type DesignComparison,
} from "../../provisions";
import { designCapacities, designCapacitiesOf } from "../../figures";
import {
  designCapacityTable,
  designEmbedmentTable,
  designFactorTable,
  Table,
  type TableText,
} from "../../tables";
import { shortTitle } from "../comparison/comparison-tables";
import { optionNumbers, type CodeOptions } from "../results/code-named";
import { fileName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { NO_ROW, rowWords, type AskedRow } from "./asked-row";

/** How two designs of one bar are compared. */
export interface DesignOptions {
  /** Shortest and longest embedment of the curves, mm; default 4 and 30 bar diameters. */
  readonly embedment_mm?: readonly [from: number, to: number];
  /** Embedment at which the ratio of the designs is split, mm; default 10 bar diameters. */
  readonly at_mm?: number;
  /** Design load whose embedment is wanted by each code, kN. */
  readonly load_kN?: number;
  /** Surroundings of an FRP bar, for the environmental factor C_E of the guide; default exterior. */
  readonly exposure?: "interior" | "exterior";
  /** Strength reduction for bond where a code states none; default 1, which applies none. */
  readonly bondReduction?: number;
  /** Options of both codes; one that only one of them offers is that one's. */
  readonly options?: CodeOptions;
}

const CURVE_POINTS = 105;
const TABLE_POINTS = 14;

/**
 * One bar in tension designed by a code for anchors and by a guide for FRP bars: capacities along
 * the embedment, crossings, and the ratio of the designs as a product of factors.
 * @example
 * study.where({ bar_class: "frp" }).compareDesigns("aci318-19", "aci440.1r-15", { at_mm: 160, load_kN: 40 }).table("factors")
 */
export class Designs extends DrawnResult<"capacities", "factors" | "embedments" | "capacities"> {
  readonly #why: string = "";
  /** The comparison as the provisions give it; null where a code gives no design capacity. */
  readonly found: DesignComparison | null;

  constructor(
    protected readonly setting: Setting,
    private readonly asked: AskedRow | null,
    private readonly codes: readonly [CodeDefinition, CodeDefinition],
    private readonly options: DesignOptions,
  ) {
    super();
    [this.found, this.#why] = this.#compared(CURVE_POINTS);
  }

  get name(): string {
    return fileName("design", this.asked?.id ?? "", ...this.codes.map(({ id }) => id));
  }

  get answer(): string {
    if (this.asked === null) return NO_ROW;
    const of = `${rowWords(this.asked)}, ${this.#codeWords()}`;
    return this.found === null
      ? `${of}: no comparison of designs, since ${this.#why}.`
      : `${of}: ${designFindings(this.found)[0] ?? ""}`;
  }

  protected sentences(): readonly string[] {
    if (this.asked === null || this.found === null) return [this.answer];
    const [, ...rest] = designFindings(this.found);
    return [
      this.answer,
      ...rest,
      "Neither code covers an FRP bar bonded into a drilled hole: no result is a design strength.",
    ];
  }

  protected tableViews(): Readonly<Record<"factors" | "embedments" | "capacities", TableView>> {
    const at = this.found === null ? "" : ` at ${this.found.at} mm`;
    const view = (
      title: string,
      make: (found: DesignComparison, text: TableText) => Table,
      points?: number,
    ): TableView => ({
      title: `${title}, ${this.#codeWords()}`,
      caption: this.answer,
      make: (text) => {
        const found = points === undefined ? this.found : this.#compared(points)[0];
        if (found !== null) return make(found, text);
        const columns = [{ key: "assumption", title: "assumption", kind: "text" as const }];
        return new Table({ ...text, rowKey: ["assumption"], columns, rows: [] });
      },
    });
    return {
      factors: view(`Ratio of the design capacities${at}, by assumption`, designFactorTable),
      embedments: view("Embedment that each code needs", designEmbedmentTable),
      capacities: view("Capacities along the embedment", designCapacityTable, TABLE_POINTS),
    };
  }

  protected figureViews(): Readonly<Record<"capacities", FigureView>> {
    return {
      capacities: {
        title: "One bar designed by an anchorage code and by an FRP guide",
        subtitle: this.#codeWords(),
        caption: this.answer,
        make: (text) =>
          this.found === null
            ? { ...designCapacities({ ...text, families: [], crossings: [] }), alt: this.answer }
            : designCapacities({ ...text, ...designCapacitiesOf(this.found) }),
      },
    };
  }

  #codeWords(): string {
    return this.codes.map(shortTitle).join(" and ");
  }

  /** The comparison with so many embedments, or why there is none. */
  #compared(points: number): [DesignComparison | null, string] {
    if (this.asked === null) return [null, NO_ROW];
    const { table } = this.asked;
    if (table.text(0, "action") !== "tension") return [null, "the row is not loaded in tension"];
    const d = table.number(0, "bar_diameter_mm");
    const { embedment_mm, at_mm, load_kN, bondReduction = 1, exposure = "exterior" } = this.options;
    const [from, to] = embedment_mm ?? [Math.round(4 * d), Math.round(30 * d)];
    const step = (to - from) / (points - 1);
    const material = table.text(0, "bar_material") ?? "";
    const C_E = environmentalFactorOfBar(this.codes[1].id, material, exposure);
    const stated = this.codes.map((code) => optionNumbers(this.options.options, code, this.codes));
    try {
      const found = compareDesigns(this.codes, table, 0, {
        embedments: Array.from({ length: points }, (_, k) => from + step * k),
        at: at_mm ?? Math.round(10 * d),
        options: Object.assign(C_E === undefined ? {} : { C_E }, ...stated) as Record<
          string,
          number
        >,
        unstatedReduction: { bond: bondReduction },
        ...(load_kN === undefined ? {} : { load_N: 1000 * load_kN }),
      });
      return [found, ""];
    } catch (error) {
      // A code that does not cover the bar gives no design: that is the answer, not a fault.
      if (error instanceof RangeError)
        return [null, error.message.replace(/^compareDesigns: /, "")];
      throw error;
    }
  }
}
