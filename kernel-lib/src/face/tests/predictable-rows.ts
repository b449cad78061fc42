import type { CodeDefinition, FailureMode } from "../../provisions";
import { askedCode, askedCodes } from "../predictions/asked-code";
import { firstRow, rowNamed } from "../predictions/asked-row";
import { Designs, type DesignOptions } from "../predictions/designs";
import { Embedments, type EmbedmentOptions } from "../predictions/embedments";
import { GoverningModes } from "../predictions/governing-modes";
import { HandCalculation } from "../predictions/hand-calculation";
import { Predictions } from "../predictions/predictions";
import { rangesOver, type Ranges } from "../predictions/ranges";
import { Sensitivity } from "../predictions/sensitivity";
import { codeNamed, type CodeOrProposal, type PredictOptions } from "../results/code-named";
import { DrawnRows } from "../results/drawn-rows";
import { knownName } from "../results/names";
import type { ChosenRows } from "./chosen-rows";
import type { TestRow } from "./study-row";

type ExplainOptions = PredictOptions & { readonly mode?: FailureMode };

/**
 * Rows that codes predict, tested or not. The verbs on one row (`governing`, `sensitivity`,
 * `embedmentFor`) take the first of the rows chosen and say so where there are more.
 */
export abstract class PredictableRows extends DrawnRows<TestRow, "coverage", "tests"> {
  abstract readonly chosen: ChosenRows;

  /** The level of the study's settings. */
  private get usualLevel(): PredictOptions["level"] {
    return this.setting.settings?.level;
  }

  /**
   * Governing mode and capacity of each row by one or several codes, and every other capacity.
   * @throws UnknownNameError for a code, level or option that there is not
   * @example study.where({ action: "shear" }).predict("aci318-19").table("all capacities")
   */
  predict(
    code: CodeOrProposal | readonly CodeOrProposal[],
    options: PredictOptions = {},
  ): Predictions {
    return new Predictions(
      this.setting,
      this.chosen,
      askedCodes(code, options, this.usualLevel),
      this.columnNames,
    );
  }

  /**
   * The hand calculation of one test, clause by clause: of the governing capacity, or of a mode. It
   * is that of the test named, or of the first of the rows chosen.
   * @throws UnknownNameError for a test, code, level, option or mode that there is not
   * @example
   * study.explain("IH-075-1", "aci318-19", { mode: "bond" });
   * study.where({ layout: "group" }).explain("aci318-19")
   */
  explain(test: string, code: CodeOrProposal, options?: ExplainOptions): HandCalculation;
  explain(code: CodeOrProposal, options?: ExplainOptions): HandCalculation;
  explain(
    first: string | { readonly changedCode: CodeDefinition },
    second: CodeOrProposal | ExplainOptions = {},
    third: ExplainOptions = {},
  ): HandCalculation {
    const named = typeof second === "string" || "changedCode" in second;
    const [code, options] = named ? [second, third] : [first as CodeOrProposal, second];
    const row = named ? rowNamed(this.chosen, first as string) : firstRow(this.chosen);
    return new HandCalculation(
      this.setting,
      row,
      askedCode(code, options, this.usualLevel),
      options.mode ?? null,
    );
  }

  /**
   * Which mode governs over one or two numbers of a row, each with its range in the column's unit.
   * A range over the bar diameter takes the area of the circle.
   * @throws UnknownNameError for a column of no number; RangeError for a range that does not rise,
   *   or for none or more than two of them
   * @example
   * study.where({ test_id: "IH-075-1" }).governing("aci318-19", { concrete_strength_MPa: [20, 60], embedment_mm: [60, 360] })
   */
  governing(code: CodeOrProposal, over: Ranges, options: PredictOptions = {}): GoverningModes {
    const by = askedCode(code, options, this.usualLevel);
    return new GoverningModes(this.setting, firstRow(this.chosen), by, rangesOver(over));
  }

  /**
   * By how many % the capacities of a row change for 1 % of each number, and what changes nearby.
   * @throws UnknownNameError for a code, level or option that there is not
   * @example study.where({ test_id: "IH-075-1" }).sensitivity("aci318-19").answer
   */
  sensitivity(code: CodeOrProposal, options: PredictOptions = {}): Sensitivity {
    return new Sensitivity(
      this.setting,
      firstRow(this.chosen),
      askedCode(code, options, this.usualLevel),
    );
  }

  /**
   * The tension design of a row by a code for anchors and by a guide for FRP bars: capacities along
   * the embedment, crossings, and the ratio of the designs as a product of factors.
   * @throws UnknownNameError for a code or option that there is not; RangeError for embedments that
   *   do not rise or are not above 0
   * @example bar.compareDesigns("aci318-19", "aci440.1r-15", { at_mm: 160, load_kN: 40 }).table("factors")
   */
  compareDesigns(
    anchors: CodeOrProposal,
    guide: CodeOrProposal,
    options: DesignOptions = {},
  ): Designs {
    const { embedment_mm: [from, to] = [1, 2], at_mm = 1 } = options;
    if (!(from > 0 && to > from && at_mm > 0))
      throw new RangeError(
        `embedment_mm is ${JSON.stringify([from, to])} and at_mm ${at_mm}; expected embedments above 0 that rise, in mm.`,
      );
    const codes = [codeNamed(anchors), codeNamed(guide)] as const;
    return new Designs(this.setting, firstRow(this.chosen), codes, options);
  }

  /**
   * The embedments at which a mode governs a row with a margin (0.2 is 20 %) over all others and
   * the grip, kN.
   * @throws UnknownNameError for a mode that the code does not predict; RangeError for a margin of
   *   −1 or less, or a grip that is not above 0
   * @example study.where({ test_id: "IH-075-1" }).embedmentFor("bond", "aci318-19", { margin: 0.2, grip_kN: 120 }).findings()
   */
  embedmentFor(
    mode: FailureMode,
    code: CodeOrProposal,
    options: PredictOptions & EmbedmentOptions = {},
  ): Embedments {
    const by = askedCode(code, options, this.usualLevel);
    const known = codeNamed(code).provisions.flatMap(({ modes }) => modes);
    knownName<string>("mode", mode, [...new Set([...known, "bar_rupture", "yield"])]);
    const { grip_kN } = options;
    if (grip_kN !== undefined && !(grip_kN > 0))
      throw new RangeError(`grip_kN is ${grip_kN}; expected a load above 0 in kN.`);
    return new Embedments(this.setting, firstRow(this.chosen), by, mode, options);
  }
}
