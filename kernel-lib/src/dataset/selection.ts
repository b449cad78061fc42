import type { Dataset } from "./dataset";
import type { Study } from "./schema/study";
import type { ExtraValue, TestColumnName, TestRow } from "./schema/test-row";
import type { TestTable } from "./table/test-table";

/** A group of tests that share the values of some columns. */
export interface TestGroup {
  readonly by: Readonly<Record<string, ExtraValue>>;
  readonly tests: TestTable;
}

/** A test with its study's line; null where studies.csv has none. */
export interface TestWithStudy {
  readonly test: TestRow;
  readonly study: Study | null;
}

/** Exact values that columns must have; a list means any of them, null means blank. */
export type Wanted = { readonly [K in TestColumnName]?: TestRow[K] | ReadonlyArray<TestRow[K]> };

/**
 * A chainable selection over tests. Every step gives a new selection; nothing is changed.
 * @example
 * select(dataset).kept().where({ bar_material: ["gfrp", "bfrp"], setup: "confined_tension" }).by("bar_size")
 */
export class Selection {
  readonly tests: TestTable;
  readonly #studies: ReadonlyMap<string, Study>;

  constructor(tests: TestTable, studies: ReadonlyMap<string, Study>) {
    this.tests = tests;
    this.#studies = studies;
  }

  /** Rows with these exact values, or for which the predicate holds. */
  where(wanted: Wanted | ((row: TestRow) => boolean)): Selection {
    if (typeof wanted === "function") return new Selection(this.tests.where(wanted), this.#studies);
    const entries = Object.entries(wanted);
    for (const [column] of entries)
      if (!this.tests.has(column))
        throw new RangeError(`no column "${column}": expected a column of the tests`);
    const fits = (row: TestRow): boolean =>
      entries.every(([column, value]) => {
        const cell = (row as unknown as Record<string, ExtraValue>)[column] ?? null;
        return Array.isArray(value)
          ? (value as ExtraValue[]).includes(cell)
          : value === undefined || value === cell;
      });
    return new Selection(this.tests.where(fits), this.#studies);
  }

  /** Rows without an exclusion reason. */
  kept(): Selection {
    return new Selection(this.tests.kept(), this.#studies);
  }

  /** Rows whose study satisfies the predicate; rows without a study line are left out. */
  whereStudy(holds: (study: Study) => boolean): Selection {
    return this.where((row) => {
      const study = this.#studies.get(row.study_id);
      return study !== undefined && holds(study);
    });
  }

  /**
   * Groups by the values of columns, in order of first appearance. Blank is a value of its own and
   * never joins another.
   */
  by(...columns: ReadonlyArray<TestColumnName | (string & {})>): TestGroup[] {
    for (const column of columns)
      if (!this.tests.has(column))
        throw new RangeError(`no column "${column}": expected a column of the tests`);
    const groups = new Map<string, { by: Record<string, ExtraValue>; indices: number[] }>();
    this.tests.rows().forEach((row, i) => {
      const values = columns.map((column) => valueOf(row, column));
      // JSON keeps 1 and "1", and ("a-b", "c") and ("a", "b-c"), apart.
      const key = JSON.stringify(values);
      const group = groups.get(key);
      if (group === undefined)
        groups.set(key, {
          by: Object.fromEntries(columns.map((column, k) => [column, values[k] ?? null])),
          indices: [i],
        });
      else group.indices.push(i);
    });
    return [...groups.values()].map(({ by, indices }) => ({
      by,
      tests: this.tests.select(indices),
    }));
  }

  /** Every test with its study. */
  withStudies(): TestWithStudy[] {
    return this.tests
      .rows()
      .map((test) => ({ test, study: this.#studies.get(test.study_id) ?? null }));
  }
}

/** Starts a selection over a data set. */
export function select(dataset: Pick<Dataset, "tests" | "studies">): Selection {
  return new Selection(
    dataset.tests,
    new Map(dataset.studies.map((study) => [study.study_id, study])),
  );
}

function valueOf(row: TestRow, column: string): ExtraValue {
  if (column in row.extra) return row.extra[column] ?? null;
  return (row as unknown as Record<string, ExtraValue>)[column] ?? null;
}
