import { labelWords, valueWords, type TrendPoint } from "../../comparison";
import { compareKeys } from "../../comparison/group-keys";
import { coverageMap, ratioStrip, type StripTest } from "../../figures";
import { axisTitle } from "../../units";
import { Table } from "../../tables";
import type { Differences } from "../differences/differences";
import { valueDifferences, type ValueVersusOptions } from "../differences/value-differences";
import { count, fileName, knownName } from "../results/names";
import { DrawnResult, type FigureView, type Setting, type TableView } from "../results/result";
import { alongColumn, besideOf, Trend, trendUnit, type TrendOptions } from "../trend/trend";
import type { ChosenRows } from "./chosen-rows";
import type { Condition } from "./condition";
import type { Cell } from "./condition-words";
import type { CategoryColumn, Column, NumberColumn, TestRow } from "./study-row";

/** The tests, as far as their groups know them. */
interface GroupedTests extends Iterable<TestRow> {
  readonly name: string;
  readonly answer: string;
  readonly chosen: ChosenRows;
  readonly columnNames: readonly string[];
  readonly numberColumns: readonly string[];
  where(condition: Condition<TestRow>): this;
}

/** Measured values grouped by columns of the tests. */
export class TestGroups<
  K extends Column = Column,
  T extends GroupedTests = GroupedTests,
> extends DrawnResult<"coverage" | "strips", "counts"> {
  constructor(
    protected readonly setting: Setting,
    private readonly tests: T,
    readonly columns: readonly string[],
  ) {
    super();
  }

  get name(): string {
    return fileName(this.tests.name, "by", ...this.columns);
  }

  get length(): number {
    return this.groups().length;
  }

  get answer(): string {
    const counts = this.groups().map(({ rows }) => rows.length);
    if (counts.length === 0) return `No group: ${this.tests.answer}`;
    return `${count(counts.length, "group")} by ${this.byWords}, ${Math.min(...counts)} to ${Math.max(...counts)} tests each: ${this.tests.answer}`;
  }

  /** The tests of one group; none where no row has these values. */
  group(key: Partial<Pick<TestRow, K>>): T {
    for (const column of Object.keys(key)) knownName("grouping column", column, this.columns);
    return this.tests.where(key);
  }

  /**
   * A measured value of every class against a reference, group by group: Welch's test with Holm's
   * correction over all lines, and equivalence within the margin. Series effect ignored.
   * @throws UnknownNameError for a column or a reference that there is not
   * @example
   * study.by("bar_size", "adhesive").versus("steel", { value: "bond_stress_MPa", margin: 0.1 })
   */
  versus<C extends CategoryColumn = "bar_material">(
    reference: NonNullable<TestRow[C]>,
    options: ValueVersusOptions<C>,
  ): Differences {
    return valueDifferences(
      this.setting,
      {
        name: this.tests.name,
        table: this.tests.chosen.table,
        columnNames: this.tests.columnNames,
        columns: this.columns,
        told: this.tests.answer,
      },
      String(reference),
      options,
    );
  }

  /**
   * A measured value along a column of numbers, one line a group; excluded rows are left out.
   * @throws UnknownNameError for a column that there is not or that holds words
   */
  trend(x: NumberColumn, options: TrendOptions & { readonly value: NumberColumn }): Trend {
    const known = { numbers: this.tests.numberColumns, names: this.tests.columnNames };
    const value = alongColumn(String(options.value), known);
    alongColumn(String(x), known);
    const allowed = (options.allowFor ?? []).map((name) =>
      knownName("column", String(name), this.tests.columnNames),
    );
    const unit = trendUnit(options.unit);
    const number = (row: TestRow, column: string): number => {
      const cell = row[column as Column];
      return typeof cell === "number" ? cell : NaN;
    };
    const points = this.groups().flatMap(({ label, rows }) =>
      rows
        .filter(({ excluded }) => excluded === null)
        .map((row): TrendPoint => ({
          group: label,
          family: "",
          x: number(row, String(x)),
          y: number(row, value),
          series: row[options.unit ?? "series_id"] || null,
          bound: row.failure_mode === "stopped" || row.failure_mode === "rupture_at_grip",
          label: row.test_id,
          beside: besideOf(row, allowed),
        })),
    );
    return new Trend(
      this.setting,
      {
        name: this.name,
        points,
        x: String(x),
        response: axisTitle(value)
          .replace(/ \([^()]*\)$/, "")
          .toLowerCase(),
        yTitle: axisTitle(value),
        level: null,
        basis: this.tests.answer.replace(/\.$/, ""),
        unit,
      },
      options,
    );
  }

  protected sentences(): readonly string[] {
    return this.groups().map(
      ({ label, rows }) =>
        `${label}: ${count(rows.length, "test")} in ${count(new Set(rows.map(({ series_id }) => series_id)).size, "series", "series")}.`,
    );
  }

  protected tableViews(): Readonly<Record<string, TableView>> {
    return {
      counts: {
        title: `Tests by ${this.byWords}`,
        caption: this.tests.answer,
        make: (text) =>
          new Table({
            ...text,
            rowKey: [...this.columns],
            columns: [
              ...this.columns.map((key) => ({
                key,
                title: key.replaceAll("_", " "),
                kind: "text" as const,
              })),
              { key: "n", title: "tests", kind: "integer" },
              { key: "excluded", title: "excluded", kind: "integer", note: "with a reason" },
              { key: "series", title: "series", kind: "integer" },
              { key: "studies", title: "studies", kind: "integer" },
            ],
            rows: this.groups().map(({ keys, rows }) => ({
              ...Object.fromEntries(this.columns.map((name, k) => [name, valueWords(keys[k]!)])),
              n: rows.length,
              excluded: rows.filter(({ excluded }) => excluded !== null).length,
              series: new Set(rows.map(({ series_id }) => series_id)).size,
              studies: new Set(rows.map(({ study_id }) => study_id)).size,
            })),
          }),
      },
    };
  }

  protected figureViews(): Readonly<Record<string, FigureView>> {
    return {
      coverage: {
        title: `Tests by ${this.byWords}`,
        caption: `Number of tests. ${this.tests.answer}`,
        make: (text) => {
          const groups = this.groups();
          const last = this.columns.length > 1 ? this.columns.at(-1)! : null;
          const headOf = (keys: readonly Cell[]): string =>
            this.labelOf(last === null ? keys : keys.slice(0, -1));
          const tailOf = (keys: readonly Cell[]): string =>
            last === null ? "tests" : labelWords(last, keys.at(-1)!);
          const [rows, columns] = [headOf, tailOf].map((of) => [
            ...new Set(groups.map(({ keys }) => of(keys))),
          ]) as [string[], string[]];
          const counts = rows.map((row) =>
            columns.map((column) =>
              groups
                .filter(({ keys }) => headOf(keys) === row && tailOf(keys) === column)
                .reduce((sum, { rows: own }) => sum + own.length, 0),
            ),
          );
          const heads = last === null ? this.columns : this.columns.slice(0, -1);
          return coverageMap({
            ...text,
            rows,
            columns,
            counts,
            rowTitle: heads.map((name) => name.replaceAll("_", " ")).join(", "),
            columnTitle: last === null ? "" : last.replaceAll("_", " "),
          });
        },
      },
      strips: {
        title: `Measured values by ${this.byWords}`,
        caption: `Open triangles: tests stopped or broken in the grip. ${this.tests.answer}`,
        make: (text, { x = "peak_load_kN" }) => {
          const value = knownName("column of numbers", x, this.tests.numberColumns);
          return ratioStrip({
            ...text,
            ratioTitle: axisTitle(value),
            level: null,
            groups: this.groups().map(({ label, rows }) => ({
              ...NO_STATISTICS,
              label,
              tests: rows.map((row): StripTest => ({
                ratio: Number(row[value as Column] ?? NaN),
                censored: row.failure_mode === "stopped" || row.failure_mode === "rupture_at_grip",
                label: row.test_id,
              })),
            })),
          });
        },
      },
    };
  }

  private get byWords(): string {
    return this.columns.map((column) => column.replaceAll("_", " ")).join(", ");
  }

  private labelOf(keys: readonly Cell[]): string {
    return keys.map((value, k) => labelWords(this.columns[k]!, value)).join(", ");
  }

  private groups(): { label: string; keys: readonly Cell[]; rows: readonly TestRow[] }[] {
    const found = new Map<string, TestRow[]>();
    for (const row of this.tests) {
      const key = JSON.stringify(this.columns.map((name) => row[name as Column] ?? null));
      found.set(key, [...(found.get(key) ?? []), row]);
    }
    return [...found]
      .map(([key, rows]) => ({ keys: JSON.parse(key) as Cell[], rows }))
      .sort((a, b) => compareKeys(a.keys, b.keys))
      .map(({ keys, rows }) => ({ label: this.labelOf(keys), keys, rows }));
  }
}

const NO_STATISTICS = { mean: NaN, meanMinus3Sd: NaN, fractile: NaN, lower: NaN, upper: NaN };
