import {
  betterGrip,
  gripMargins,
  gripStrengths,
  type Comparison,
  type GripStrengths,
} from "../comparison";
import type { TestTable } from "../dataset";
import { gripShareGroups, gripShares } from "../figures";
import type { FailureMode } from "../provisions";
import { percent, significant } from "../statistics/reading";
import { gripStrengthTable } from "../tables";
import { comparedCodes, type CompareOptions } from "./comparison/compared-codes";
import { shortTitle } from "./comparison/comparison-tables";
import { BetterGripOutcome, RequiredGripMargin, type GripBasis } from "./grip-outcomes";
import type { CodeOrProposal } from "./results/code-named";
import type { CodeId, Mode } from "./results/generated-names";
import { count, fileName, knownName } from "./results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "./results/result";
import type { Column } from "./tests/study-row";

/** How breaks in the grip are grouped and judged. */
export interface GripOptions {
  /** Columns of words; default grip and bar material. */
  readonly by?: readonly Column[];
  /** Share of bars that may break in the grip; default 0.05. */
  readonly fractile?: number;
  /** Default 0.90. */
  readonly confidence?: number;
}

/** How tests are joined with a code's predictions when grips are judged. */
export type GripComparison<C extends CodeId = CodeId> = Pick<
  CompareOptions<C>,
  "level" | "options" | "confinedBondFactor"
>;

/** Modes that a grip may keep a test in tension from. */
const MODES: readonly Mode[] = ["bond", "combined_cone_bond", "concrete_breakout", "splitting"];

/**
 * How often, and at which share of their strength, bars break in each grip. Tests that ended in
 * another way are lower bounds of what their grip carries.
 * @example study.grips().marginFor("bond", "aci318-19", { confinedBondFactor: 0.75 }).table()
 */
export class Grips extends DrawnResult<"shares", "strength"> {
  readonly #strengths: GripStrengths;

  constructor(
    protected readonly setting: Setting,
    private readonly tests: TestTable,
    private readonly conditions: readonly string[],
    { by = ["grip", "bar_material"], fractile = 0.05, confidence = 0.9 }: GripOptions,
  ) {
    super();
    this.#strengths = gripStrengths(tests, { by: by.map(String), fractile, confidence });
  }

  get name(): string {
    return fileName("grips", ...this.conditions);
  }

  get answer(): string {
    const { groups, unused, fractile, confidence } = this.#strengths;
    const where = this.conditions.length === 0 ? "" : ` (${this.conditions.join("; ")})`;
    const reasons = unused.map(({ reason, n }) => `${n} ${reason}`).join("; ");
    if (groups.length === 0)
      return `No test in tension names its grip${where}${reasons === "" ? "" : `: ${reasons}`}.`;
    const n = groups.reduce((sum, { tests }) => sum + tests.length, 0);
    const broke = groups.reduce((sum, one) => sum + one.broke, 0);
    if (broke === 0) return `None of ${count(n, "bar")} in tension broke in the grip${where}.`;
    const worst = [...groups].sort((a, b) => b.rate.share - a.rate.share)[0]!;
    const reliable =
      worst.reliable === null
        ? "too few tests for a reliable fraction of bar strength"
        : `at most ${percent(fractile)} of them break below ${significant(worst.reliable.share)} of bar strength (${percent(confidence)} confidence)`;
    return `${broke} of ${count(n, "bar")} in tension broke in the grip${where}. The highest rate is ${worst.broke} of ${worst.tests.length} (${worst.label}); ${reliable}.`;
  }

  /**
   * The margin over the predicted load of a mode that each grip needs for the mode to be seen, and
   * the embedments that it then allows (`gripMargins`).
   * @param options those of the comparison; confined tests need `confinedBondFactor`
   * @throws UnknownNameError for a mode that a grip does not keep a test from, or a code
   */
  marginFor<C extends CodeId = CodeId>(
    mode: Mode,
    code: CodeOrProposal<C>,
    options: GripComparison<C> = {},
  ): RequiredGripMargin {
    const known = knownName<string>("mode", mode, MODES) as FailureMode;
    const pairs = this.pairsOf(code, options);
    const margins = gripMargins(this.#strengths, pairs, known);
    return new RequiredGripMargin(this.setting, margins, this.basisOf(pairs));
  }

  /**
   * What a grip that does not break the bar would have shown: for each bar that broke in its grip,
   * the mode and load that it is predicted to have reached (`betterGrip`).
   * @param options those of the comparison; confined tests need `confinedBondFactor`
   */
  betterGrip<C extends CodeId = CodeId>(
    code: CodeOrProposal<C>,
    options: GripComparison<C> = {},
  ): BetterGripOutcome {
    const pairs = this.pairsOf(code, options);
    return new BetterGripOutcome(this.setting, betterGrip(pairs), this.basisOf(pairs));
  }

  protected sentences(): readonly string[] {
    return [this.answer, ...this.#strengths.groups.map(({ reading }) => reading)];
  }

  protected tableViews(): Readonly<Record<"strength", TableView>> {
    return {
      strength: {
        title: "Breaks in the grip, by grip and bar",
        caption: "Bars in tension.",
        make: (text) => gripStrengthTable(this.#strengths, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<"shares", FigureView>> {
    const { fractile, confidence } = this.#strengths;
    return {
      shares: {
        title: "Bar stress at a break in the grip, as a fraction of bar strength",
        caption: `Dots: breaks in the grip. Triangles: lower bounds (tests that ended in another way). Reliable fraction: at most ${percent(fractile)} of bars break below it (${percent(confidence)} confidence).`,
        make: (text) => gripShares({ ...text, groups: gripShareGroups(this.#strengths) }),
      },
    };
  }

  private pairsOf<C extends CodeId>(
    code: CodeOrProposal<C>,
    options: GripComparison<C>,
  ): Comparison {
    return comparedCodes(this.tests, code, options)[0]!.pairs;
  }

  private basisOf({ code, prediction }: Comparison): GripBasis {
    return {
      source: fileName(this.name, code.id),
      words: `${shortTitle(code)}, ${prediction.level} level`,
    };
  }
}
