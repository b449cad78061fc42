import {
  groupRatios,
  valueWords,
  verdictLines,
  type GroupSettings,
  type RatioGroup,
  type VerdictWord,
} from "../../comparison";
import { groupJudge } from "../../comparison/group-judge";
import { survivalCurveOf, type SurvivalCurve } from "../../figures";
import { kaplanMeier } from "../../statistics";
import { cellTable, ratioGroupTable } from "../../tables";
import type { Differences } from "../differences/differences";
import { ratioDifferences, type ComparedRatios } from "../differences/ratio-differences";
import type { VersusOptions } from "../differences/versus-options";
import { count, fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import type { CategoryColumn, NumberColumn } from "../tests/study-row";
import { ratioTrend } from "../trend/ratio-trend";
import type { Trend, TrendOptions } from "../trend/trend";
import type { Comparison } from "./comparison";
import type { EvidenceColumn, EvidenceRow } from "./evidence-row";
import { Group } from "./group";
import { groupFigures, type RatioFigure } from "./group-figures";
import type { JudgeOptions } from "./judge-options";

export type { JudgeOptions };

const WORDS: readonly VerdictWord[] = [
  "falls short",
  "undecided",
  "meets",
  "too few tests",
  "too few series",
  "no criterion",
];

type GroupTable = "verdicts" | "statistics" | "cells";

/**
 * Groups of test-to-predicted ratios with verdicts. Iterating gives one `Group` after the other.
 * @example
 * study.compare("aci318-19").by("mode", "bar_material").withVerdict("falls short").findings()
 */
export class Groups<K extends EvidenceColumn = EvidenceColumn>
  extends DrawnResult<RatioFigure, GroupTable>
  implements Iterable<Group<K>>
{
  #groups: readonly FoundGroup[] | null = null;

  constructor(
    protected readonly setting: Setting,
    readonly comparison: Comparison,
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
    const counts = WORDS.map(
      (word) => [word, this.found.filter(({ group }) => group.verdict === word).length] as const,
    ).filter(([, n]) => n > 0);
    return `${count(this.length, "group")} by ${this.byWords}, in general: ${counts.map(([word, n]) => `${n} ${VERB[word](n)}`).join(", ")} (${this.question}).`;
  }

  /** The same groups judged by another fractile, confidence, distribution or cells. */
  judge(options: JudgeOptions): Groups<K> {
    return new Groups(
      this.setting,
      this.comparison,
      this.columns,
      { ...this.options, ...options },
      this.kept,
    );
  }

  /** The groups with this verdict in general. */
  withVerdict(verdict: VerdictWord): Groups<K> {
    return new Groups(
      this.setting,
      this.comparison,
      this.columns,
      this.options,
      knownName("verdict", verdict, WORDS),
    );
  }

  /**
   * One group; an empty one where no row has these values.
   * @throws RangeError where several groups have them
   */
  group(key: Partial<Pick<EvidenceRow, K>>): Group<K> {
    const wanted = Object.entries(key);
    for (const [column] of wanted) knownName("grouping column", column, this.columns);
    const fitting = this.found.filter(({ group }) =>
      wanted.every(([column, value]) => group.by[column] === value),
    );
    if (fitting.length > 1)
      throw new RangeError(
        `${fitting.length} groups have ${JSON.stringify(key)}: ${fitting.map(({ group }) => group.label).join("; ")}. Expected values of ${this.columns.join(", ")} that name one.`,
      );
    const [only] = fitting;
    const rows = this.comparison.where(key);
    const empty = (): RatioGroup =>
      emptyGroup(
        rows,
        wanted.map(([column, value]) => [column, value as string | number | null]),
        this.settings,
      );
    return new Group(only?.group ?? empty(), rows);
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
   * the column would give. Lower bounds are left out of the lines and counted.
   * @throws UnknownNameError for a column that there is not or that holds words
   */
  trend(x: NumberColumn<EvidenceRow>, options: TrendOptions = {}): Trend {
    const { numberColumns } = this.comparison;
    return ratioTrend(this.setting, { ...this.compared, numberColumns }, String(x), options);
  }

  *[Symbol.iterator](): Iterator<Group<K>> {
    for (const { group } of this.found) yield new Group<K>(group, this.comparison.where(group.by));
  }

  /** Share of tests above each ratio, one curve for each group of at least 3 tests. */
  curves(): SurvivalCurve[] {
    return this.ratioGroups
      .filter(({ evidence }) => evidence.length >= 3)
      .map(({ label, evidence }) =>
        survivalCurveOf(
          label,
          kaplanMeier({
            values: evidence.map(({ ratio }) => ratio),
            censored: evidence.map(({ bound }) => bound),
          }),
        ),
      );
  }

  protected sentences(): readonly string[] {
    return this.ratioGroups.flatMap((group) => verdictLines(group));
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    const [title, caption] = [
      `Test-to-predicted ratios by ${this.byWords}, ${this.comparison.basis}`,
      this.comparison.answer,
    ];
    return {
      verdicts: { title, caption, make: (text) => ratioGroupTable(this.ratioGroups, text) },
      statistics: {
        title,
        caption,
        make: (text) => ratioGroupTable(this.ratioGroups, text, "moments"),
      },
      cells: {
        title: `Cells of the groups by ${this.byWords}, ${this.comparison.basis}`,
        caption,
        make: (text) => cellTable(this.ratioGroups, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return this.figures();
  }

  /** The figure views, which a comparison shows of its groups by material. */
  figures(): Readonly<Record<RatioFigure, FigureView>> {
    return groupFigures({
      parts: this.comparison.parts,
      columns: this.columns,
      basis: this.comparison.basis,
      told: this.comparison.answer,
      by: this.byWords,
      question: this.question,
      numberColumns: () => this.comparison.numberColumns,
      evidenceColumns: this.comparison.columnNames,
      rows: () => [...this.comparison],
      groups: () => this.found,
      curves: () => this.curves(),
    });
  }

  private get compared(): ComparedRatios {
    const { name, comparison, columns } = this;
    return { name, parts: comparison.parts, columns, basis: comparison.basis };
  }

  private get byWords(): string {
    return [
      ...(this.comparison.parts.length > 1 && !this.columns.includes("code") ? ["code"] : []),
      ...this.columns,
    ]
      .map((column) => column.replaceAll("_", " "))
      .join(", ");
  }

  private get question(): string {
    const { fractile = 0.05, confidence = 0.9 } = this.options;
    return `${percent(fractile)} fractile at ${percent(confidence)} confidence`;
  }

  private get settings(): GroupSettings {
    const { cells, ...rest } = this.options;
    return { ...rest, ...(cells === undefined ? {} : { cells: cells.map(String) }) };
  }

  private get found(): readonly FoundGroup[] {
    this.#groups ??= foundGroups(this.comparison, this.columns, this.settings).filter(
      ({ group }) => this.kept === null || group.verdict === this.kept,
    );
    return this.#groups;
  }
}

interface FoundGroup {
  readonly code: string;
  readonly group: RatioGroup;
}

/** With several codes, `code` is the first grouping column. */
function foundGroups(
  { parts }: Comparison,
  columns: readonly string[],
  settings: GroupSettings,
): FoundGroup[] {
  const named = columns.includes("code") || parts.length > 1;
  return parts.flatMap(({ pairs }) => {
    const groups = groupRatios(
      pairs,
      columns.filter((column) => column !== "code"),
      settings,
    );
    return groups.map((group) => ({
      code: pairs.code.id,
      group: named
        ? {
            ...group,
            by: { code: pairs.code.id, ...group.by },
            label: [pairs.code.id, group.label].filter(Boolean).join(", "),
          }
        : group,
    }));
  });
}

/** The group of no rows: its verdict says that there are too few tests. */
function emptyGroup(
  rows: Comparison,
  by: readonly (readonly [string, string | number | null])[],
  settings: GroupSettings,
): RatioGroup {
  const judge = groupJudge(
    rows.parts[0]!.pairs,
    by.map(([column]) => column),
    settings,
  );
  return judge(Object.fromEntries(by), by.map(([, value]) => valueWords(value)).join(", "), [], []);
}

const VERB: Readonly<Record<VerdictWord, (n: number) => string>> = {
  meets: (n) => (n === 1 ? "meets" : "meet"),
  "falls short": (n) => (n === 1 ? "falls short" : "fall short"),
  undecided: () => "undecided",
  "too few tests": () => "with too few tests",
  "too few series": () => "with too few series",
  "no criterion": () => "without a criterion",
};

function percent(share: number): string {
  return `${Number((100 * share).toPrecision(3))} %`;
}
