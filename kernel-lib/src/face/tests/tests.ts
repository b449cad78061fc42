import { valueWords } from "../../comparison";
import { testsCsv, TEST_COLUMNS, type ExtraValue } from "../../dataset";
import { Table, type TableRow, type TableText } from "../../tables";
import { comparedCodes, unusualChoices, type CompareOptions } from "../comparison/compared-codes";
import { Comparison } from "../comparison/comparison";
import { Grips, type GripOptions } from "../grips";
import type { CodeOrProposal } from "../results/code-named";
import type { CodeId } from "../results/generated-names";
import { count, fileName, knownName } from "../results/names";
import type { FigureView, Setting, TableView } from "../results/result";
import type { ChosenRows } from "./chosen-rows";
import { readyCondition, type Condition } from "./condition";
import { coverageBy } from "./coverage-figure";
import { DERIVED_COLUMNS } from "./derived-columns";
import { PredictableRows } from "./predictable-rows";
import type { Column, TestRow } from "./study-row";
import { TestGroups } from "./test-groups";
import { testRecords } from "./test-records";
import { atStrength, withChanges, type Changes, type StrengthOptions } from "./what-if";

/**
 * Tests of a study. Every verb gives a new object; nothing changes in place.
 * @example
 * const bonded = study.where({ installation: "post_installed" }).exclude({ test_id: "NM-001-1" }, "load cell failed");
 */
export class Tests extends PredictableRows {
  constructor(
    protected readonly setting: Setting,
    readonly chosen: ChosenRows,
  ) {
    super();
  }

  get name(): string {
    return fileName("tests", ...this.chosen.conditions);
  }

  get columnNames(): readonly string[] {
    const own = this.chosen.table.extraColumns
      .map(({ name }) => name)
      .filter((name) => !DERIVED_COLUMNS.includes(name));
    return [
      ...TEST_COLUMNS.map(({ name }) => name),
      ...DERIVED_COLUMNS,
      "layout",
      ...own.map((name) => `extra.${name}`),
    ];
  }

  get answer(): string {
    const { table, conditions } = this.chosen;
    const of = (column: string): number => new Set(table.texts(column)).size;
    const where = conditions.length === 0 ? "" : ` (${conditions.join("; ")})`;
    const excluded = table.texts("excluded").filter((reason) => reason !== null).length;
    const without =
      excluded === 0
        ? ""
        : `, of which ${excluded} ${excluded === 1 ? "is" : "are"} excluded with a reason`;
    if (this.chosen.whatIf) return `${count(table.length, "what-if row")}, not tested${where}.`;
    return `${count(table.length, "test")} in ${count(of("series_id"), "series", "series")} from ${count(of("study_id"), "study", "studies")}${where}${without}.`;
  }

  /**
   * The rows that meet a condition: values, lists, `{ from, to }`, `{ not }`, a condition as text,
   * or a function of the row.
   * @throws UnknownNameError for a column that the rows do not have
   * @example study.where("embedment_mm >= 100 && bar_material == 'gfrp'")
   */
  where(condition: Condition<TestRow>): Tests {
    const { kept, words } = this.rowsThat(condition);
    return new Tests(this.setting, {
      ...this.chosen,
      table: this.chosen.table.select(kept),
      conditions: [...this.chosen.conditions, words],
    });
  }

  /** Leaves rows out of every comparison; they stay in the account with the reason. */
  exclude(condition: Condition<TestRow>, reason: string): Tests {
    if (reason.trim() === "")
      throw new RangeError("The reason is empty; expected one that a reviewer can check.");
    const { kept } = this.rowsThat(condition);
    const left = new Set(kept);
    const excluded = this.chosen.table
      .texts("excluded")
      .map((known, i) => known ?? (left.has(i) ? reason : null));
    return new Tests(this.setting, {
      ...this.chosen,
      table: this.chosen.table.withTexts("excluded", excluded),
    });
  }

  /**
   * Test-to-predicted ratios of the tests by one or several codes; a proposal goes wherever a code
   * goes.
   * @example study.compare("aci318-19").by("mode", "bar_material").table()
   */
  compare<C extends CodeId = CodeId>(
    code: CodeOrProposal<C> | readonly CodeOrProposal<C>[],
    options: CompareOptions<C> = {},
  ): Comparison {
    if (this.chosen.whatIf)
      throw new RangeError(
        "These rows were not tested: they have no load and no failure mode, so they cannot be compared with a code. Use predict, explain or governing.",
      );
    const parts = comparedCodes(this.chosen.table, code, options, this.setting.settings?.level);
    const conditions = [...this.chosen.conditions, ...unusualChoices(options)];
    return new Comparison(this.setting, { ...this.chosen, conditions }, parts);
  }

  /**
   * What-if rows: each row once for every combination of the values, without load and observed
   * mode. Numbers that belong to a changed one and are not stated become blank: area and size label
   * with the diameter, bond strength with the crack state.
   * @throws UnknownNameError for a column that rows do not state; RangeError for a value that its
   *   column does not take
   * @example study.where({ test_id: "IH-075-1" }).set({ concrete_strength_MPa: [20, 60] }).predict("aci318-19")
   */
  set(values: Changes): Tests {
    return new Tests(this.setting, withChanges(this.chosen, values));
  }

  /**
   * The tests with loads brought to one cylinder strength f (MPa), P (f / f_c)^m. The exponent m is
   * a number, `fitted` from these tests, or by the observed mode (default: 0.5 concrete, 0 bar; none
   * for bond). A test without an exponent is excluded with the reason.
   * @throws RangeError for a strength not above 0, or tests from which no exponent can be fitted
   * @example study.where({ failure_mode: "bond" }).atConcreteStrength(30, { exponent: "fitted" })
   */
  atConcreteStrength(MPa: number, options: StrengthOptions = {}): Tests {
    return new Tests(this.setting, atStrength(this.chosen, MPa, options));
  }

  /**
   * Groups of the tests by the values of columns.
   * @throws UnknownNameError for a column that the rows do not have
   * @example study.by("bar_size", "adhesive").versus("steel", { value: "bond_stress_MPa" })
   */
  by<C extends readonly [Column, ...Column[]]>(...columns: C): TestGroups<C[number], Tests> {
    const names = columns.map((column) => knownName("column", String(column), this.columnNames));
    return new TestGroups<C[number], Tests>(this.setting, this, names);
  }

  /**
   * How often, and at which share of their strength, bars break in each grip.
   * @throws RangeError for a column of numbers in `by`
   * @example study.where({ bar_class: "frp" }).grips().table()
   */
  grips(options: GripOptions = {}): Grips {
    return new Grips(this.setting, this.chosen.table, this.chosen.conditions, options);
  }

  override toCsv(): string {
    return testsCsv(this.chosen.table);
  }

  protected records(): readonly TestRow[] {
    return testRecords(this.chosen.table);
  }

  protected rowsThat(condition: Condition<TestRow>): {
    readonly kept: readonly number[];
    readonly words: string;
  } {
    const ready = readyCondition(condition, this.columnNames);
    const records = this.records();
    const kept = records.flatMap((row, i) =>
      ready.holds(
        (column) => row[column as Column] as ExtraValue,
        () => row,
      )
        ? [i]
        : [],
    );
    return { kept, words: ready.words };
  }

  protected sentences(): readonly string[] {
    const observed = new Map<string, number>();
    for (const mode of this.chosen.table.texts("failure_mode"))
      observed.set(mode ?? "unknown", (observed.get(mode ?? "unknown") ?? 0) + 1);
    const modes = [...observed]
      .sort((a, b) => b[1] - a[1])
      .map(([mode, n]) => `${valueWords(mode)} ${n}`);
    return [
      this.answer,
      ...(modes.length === 0 ? [] : [`Observed failure modes: ${modes.join(", ")}.`]),
    ];
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return {
      tests: {
        title: "Tests",
        caption: this.answer,
        make: (text) => testsTable(this.records(), this.columnNames, text),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return {
      coverage: {
        title: "Tests by bar and observed failure mode",
        caption: `Number of tests. ${this.answer}`,
        make: coverageBy(this.chosen.table, ["bar_material", "bar_size"], "Bar material and size"),
      },
    };
  }
}

/** The first rows with the columns that any of them fills. */
function testsTable(rows: readonly TestRow[], names: readonly string[], text: TableText): Table {
  const shown = rows.slice(0, MOST_SHOWN);
  const filled = names.filter((name) =>
    shown.some((row) => (row[name as Column] ?? null) !== null),
  );
  const numeric = (name: string): boolean =>
    shown.every((row) => row[name as Column] === null || typeof row[name as Column] === "number");
  const columns = filled.map((key) => ({
    key,
    title: key.replaceAll("_", " "),
    kind: numeric(key) ? ("number" as const) : ("text" as const),
    limit: null,
  }));
  const notes =
    rows.length > shown.length ? [`The first ${shown.length} of ${rows.length} tests.`] : [];
  return new Table({
    ...text,
    rowKey: ["test_id"],
    columns,
    rows: shown.map(
      (row) =>
        Object.fromEntries(filled.map((name) => [name, row[name as Column] ?? null])) as TableRow,
    ),
    notes,
  });
}

const MOST_SHOWN = 20;
