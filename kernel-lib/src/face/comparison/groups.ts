import {
  verdictLines,
  type GroupSettings,
  type RatioGroup,
  type VerdictWord,
} from "../../comparison";
import { percent } from "../../statistics/reading";
import type { Differences } from "../differences/differences";
import { ratioDifferences, type ComparedRatios } from "../differences/ratio-differences";
import type { VersusOptions } from "../differences/versus-options";
import type { FactorOptions } from "../proposals/derived-factors";
import { Factors } from "../proposals/factors";
import { Calibration, type CalibrateOptions } from "../proposals/calibration";
import type { JudgedGroups } from "../proposals/judged-groups";
import { GroupsLeaveOut } from "../proposals/leave-out-groups";
import type { LeftOut } from "../proposals/left-out-unit";
import { Plan, type PlanOptions } from "../proposals/plan";
import { Reliability, type ReliabilityOptions } from "../proposals/reliability";
import { SizeRules, type SizeRuleOptions } from "../proposals/size-rules";
import { count, fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import type { CategoryColumn, NumberColumn } from "../tests/study-row";
import { ratioTrend } from "../trend/ratio-trend";
import type { Trend, TrendOptions } from "../trend/trend";
import type { EvidenceColumn, EvidenceRow } from "./evidence-row";
import {
  emptyGroup,
  foundGroups,
  groupWith,
  type FoundGroup,
  type GroupedRows,
} from "./found-groups";
import { Group } from "./group";
import { groupFigures, type RatioFigure } from "./group-figures";
import { groupTables, type GroupTable } from "./group-tables";
import type { JudgeOptions } from "./judge-options";
import { shareAbove } from "./share-above";
import { VERDICT_WORDS, verdictCounts } from "./verdict-words";

/**
 * Groups of test-to-predicted ratios with verdicts. Iterating gives one `Group` after the other.
 * @example
 * study.compare("aci318-19").by("mode", "bar_material").withVerdict("falls short").findings()
 */
export class Groups<K extends EvidenceColumn = EvidenceColumn, R extends GroupedRows = GroupedRows>
  extends DrawnResult<RatioFigure, GroupTable>
  implements Iterable<Group<K, R>>
{
  #groups: readonly FoundGroup[] | null = null;

  constructor(
    protected readonly setting: Setting,
    readonly comparison: R,
    readonly columns: readonly string[],
    private readonly options: JudgeOptions,
    private readonly kept: VerdictWord | null = null,
  ) {
    super();
  }

  get name(): string {
    return fileName(
      this.comparison.name,
      "by",
      ...this.columns.map((column) => column.replace("bar_", "")),
      this.kept ?? "",
    );
  }

  get length(): number {
    return this.found.length;
  }

  /** The groups as the rooms below know them, in the order of the tables. */
  get ratioGroups(): readonly RatioGroup[] {
    return this.found.map(({ group }) => group);
  }

  get answer(): string {
    if (this.length === 0) return `No group: ${this.comparison.answer}`;
    return `${count(this.length, "group")} by ${this.byWords}, in general: ${verdictCounts(this.ratioGroups.map(({ verdict }) => verdict))} (${this.question}).`;
  }

  /** The same groups judged by another fractile, confidence, distribution or cells. */
  judge(options: JudgeOptions): Groups<K, R> {
    const judged = { ...this.options, ...options };
    return new Groups(this.setting, this.comparison, this.columns, judged, this.kept);
  }

  /** The groups with this verdict in general. */
  withVerdict(verdict: VerdictWord): Groups<K, R> {
    const kept = knownName("verdict", verdict, VERDICT_WORDS);
    return new Groups(this.setting, this.comparison, this.columns, this.options, kept);
  }

  /**
   * One group; an empty one where no row has these values.
   * @throws RangeError where several groups have them
   */
  group(key: Partial<Pick<EvidenceRow, K>>): Group<K, R> {
    for (const column of Object.keys(key)) knownName("grouping column", column, this.by);
    const rows = this.comparison.where(key);
    const only = groupWith(this.found, key, this.by);
    return new Group(only ?? emptyGroup(rows.parts[0]!.pairs, key, this.settings), rows);
  }

  /**
   * Each class against a reference within every group, lower bounds treated as right-censored and
   * Holm's correction over all lines of one call. The column compared is no grouping column, and a
   * verdict kept by `withVerdict` does not restrict the rows.
   * @throws UnknownNameError for a column or a reference that there is not
   * @example study.compare("aci318-19").by("mode").versus("steel").table()
   */
  versus<C extends CategoryColumn = "bar_material">(
    reference: NonNullable<EvidenceRow[C]>,
    options: VersusOptions<C> = {},
  ): Differences {
    return ratioDifferences(this.setting, this.compared, String(reference), options);
  }

  /**
   * The ratio along a column of numbers, one line a group, and what smaller and larger values of
   * the column would give. Lower bounds are omitted from the lines and counted.
   * @throws UnknownNameError for a column that there is not or that holds words
   */
  trend(x: NumberColumn<EvidenceRow>, options: TrendOptions = {}): Trend {
    const { numberColumns, columnNames } = this.comparison;
    const ratios = { ...this.compared, numberColumns, columnNames };
    return ratioTrend(this.setting, ratios, String(x), options);
  }

  *[Symbol.iterator](): Iterator<Group<K, R>> {
    for (const { group } of this.found)
      yield new Group<K, R>(group, this.comparison.where(group.by));
  }

  /**
   * The factors of the groups of FRP bars by three criteria.
   * @throws RangeError for a comparison with several codes
   * @example study.compare("aci318-19").by("mode", "bar_material").factors().table("criteria")
   */
  factors(options: FactorOptions = {}): Factors<K> {
    return new Factors<K>(this.asked, options);
  }

  /** The verdicts without each study, series, laboratory or bar size in turn. */
  leaveOut(unit: LeftOut): GroupsLeaveOut {
    return new GroupsLeaveOut(this.asked, unit);
  }

  /** The reliability index of each group, and the strength reduction for a target index. */
  reliability(options: ReliabilityOptions = {}): Reliability {
    return new Reliability(this.asked, options);
  }

  /** The groups calibrated to EN 1990 Annex D.8. */
  calibrate(options: CalibrateOptions = {}): Calibration {
    return new Calibration(this.asked, options);
  }

  /**
   * The factor of each group along a number column, with simple rules that a code could print.
   * @throws UnknownNameError for a column that no provision reads
   */
  sizeRule(column: NumberColumn, options: SizeRuleOptions = {}): SizeRules {
    return new SizeRules(this.asked, String(column), options);
  }

  /** The next campaign: how many further tests settle each verdict, and with which specimen. */
  plan(options: PlanOptions = {}): Plan {
    return new Plan(this.asked, options);
  }

  protected sentences(): readonly string[] {
    if (this.length === 0)
      return [this.kept === null ? this.answer : `No group in general: ${this.kept}.`];
    return this.ratioGroups.flatMap((group) => verdictLines(group));
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const { byWords, comparison, columns, options } = this;
    const { basis, answer } = comparison;
    const judgedBy = (distribution: "normal" | "lognormal"): readonly RatioGroup[] =>
      new Groups(this.setting, comparison, columns, { ...options, distribution }).ratioGroups;
    return groupTables(() => this.ratioGroups, byWords, basis, answer, judgedBy);
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return this.figures();
  }

  /** The figure views, which a comparison shows of its groups by material. */
  figures(): Readonly<Record<RatioFigure, FigureView>> {
    return groupFigures({
      ...this.compared,
      told: this.comparison.answer,
      by: this.byWords,
      question: this.question,
      numberColumns: () => this.comparison.numberColumns,
      evidenceColumns: this.comparison.columnNames,
      rows: () => [...this.comparison],
      groups: () => this.found,
      curves: () => shareAbove(this.ratioGroups),
    });
  }

  private get compared(): ComparedRatios {
    const { parts, basis } = this.comparison;
    return { name: this.name, parts, columns: this.columns, basis };
  }

  /** The grouping columns; with several codes, `code` is always one. */
  private get by(): readonly string[] {
    const several = this.comparison.parts.length > 1 && !this.columns.includes("code");
    return several ? ["code", ...this.columns] : this.columns;
  }

  private get byWords(): string {
    return this.by.map((column) => column.replaceAll("_", " ")).join(", ");
  }

  private get question(): string {
    const { fractile = 0.05, confidence = 0.9 } = this.options;
    return `${percent(fractile)} fractile at ${percent(confidence)} confidence`;
  }

  /** What the verbs of the groups are told. */
  private get asked(): JudgedGroups {
    return {
      ...this.compared,
      setting: this.setting,
      groups: this.ratioGroups,
      question: this.settings,
      byWords: this.byWords,
      rows: this.comparison.answer,
    };
  }

  private get settings(): GroupSettings {
    const { cells, ...rest } = this.options;
    return { ...rest, ...(cells === undefined ? {} : { cells: cells.map(String) }) };
  }

  private get found(): readonly FoundGroup[] {
    this.#groups ??= foundGroups(this.comparison.parts, this.columns, this.settings).filter(
      ({ group }) => this.kept === null || group.verdict === this.kept,
    );
    return this.#groups;
  }
}
