import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import type { CellProblem, ColumnReader } from "./column-reader";
import { deriveLoad, DERIVED_LOAD, INSTEAD_OF_LOAD } from "./derive-load";
import { loadContradictions } from "./load-contradictions";
import { noTest, type NoTest } from "./row-kinds";
import type { RowSetAside } from "./row-set-aside";
import type { IntakeSetting } from "./intake-setting";
import { otherSeparator, SEPARATOR_NAMES, raggedRow } from "./ragged-row";

/** Blank required cells of a row that are named one by one. */
const MOST_BLANKS = 3;

/** Takes records one by one, deciding for each whether it is used or set aside. */
export class RowIntake {
  readonly rows: number[] = [];
  readonly derivedBy: Array<string | null> = [];
  readonly setAside: RowSetAside[] = [];
  readonly #seen = new Map<string, number>();
  /** Looked up once: these are asked for every row. */
  readonly #key: ColumnReader | null;
  readonly #byName: ReadonlyMap<string, ColumnReader>;
  readonly #requiredAt: ReadonlyArray<number>;
  /** Columns without a name, with how many rows fill them and the first that does. */
  readonly #unnamed: ReadonlyArray<{
    readonly at: number;
    n: number;
    first: { readonly row: number; readonly value: string } | null;
  }>;

  constructor(
    readonly setting: IntakeSetting,
    readonly diagnostics: Diagnostic[],
  ) {
    const { columns, key } = setting;
    this.#byName = new Map(
      columns.flatMap((column): [string, ColumnReader][] =>
        column.matched.column === null ? [] : [[column.matched.column.name, column]],
      ),
    );
    this.#key = key === null ? null : (this.#byName.get(key) ?? null);
    this.#unnamed = setting.header.flatMap((name, at) =>
      name.trim() === "" ? [{ at, n: 0, first: null }] : [],
    );
    this.#requiredAt = columns.flatMap(({ matched }) =>
      matched.column?.required === true && matched.index >= 0 ? [matched.index] : [],
    );
  }

  take(cells: ReadonlyArray<string>, row: number, fault: string | null): void {
    const { file, columns, standing } = this.setting;
    const reasons = fault === null ? this.#lengthFault(cells) : this.#quoteFault(cells, row, fault);
    if (reasons === null) return;
    const found: Diagnostic[] = [];
    let rule: string | null = null;
    if (reasons.length === 0) {
      for (const column of columns) {
        const cell = cells[column.matched.index] ?? "";
        const trimmed = cell === "" ? cell : cell.trim();
        const problem = column.read(trimmed);
        if (problem !== null) this.#tell(column, trimmed, problem, row, reasons, found);
      }
      const load = this.setting.derivable ? this.#byName.get(DERIVED_LOAD) : undefined;
      if (
        load !== undefined &&
        Number.isNaN(load.pendingNumber()) &&
        found.some((one) => one.rule === "missing-value" && one.column === load.matched.typed)
      )
        rule = this.#deriveLoad(load, row, reasons, found);
      if (reasons.length === 0) this.#checkLoads(row, reasons, found);
      if (reasons.length > 0) {
        const other = noTest(cells, this.setting.header, this.#requiredAt, file, row);
        if (other !== null) return this.#leaveOut(cells, row, other);
      }
      this.#gatherBlanks(row, reasons, found);
      this.#checkKey(row, reasons, found);
    } else if (fault === null) {
      const foreign = otherSeparator(cells, this.setting);
      const other =
        foreign !== null ? null : noTest(cells, this.setting.header, this.#requiredAt, file, row);
      if (other !== null) return this.#leaveOut(cells, row, other);
      if (foreign !== null) reasons[0] = `separated by ${SEPARATOR_NAMES[foreign]}`;
      this.diagnostics.push(raggedRow(file, row, cells.length, this.setting, foreign));
    }
    this.diagnostics.push(...found);
    if (reasons.length > 0 || standing.length > 0) {
      this.setAside.push({ file, row, cells: cells, reasons: [...standing, ...reasons] });
      return;
    }
    for (const column of this.#unnamed) {
      const value = (cells[column.at] ?? "").trim();
      if (value === "") continue;
      column.n += 1;
      column.first ??= { row, value: value };
    }
    for (const column of columns) column.commit();
    this.rows.push(row);
    this.derivedBy.push(rule);
  }

  /** What stands in columns without a name: nobody can say what it is, so it is left out, aloud. */
  unnamedColumns(): Diagnostic[] {
    const { file } = this.setting;
    return this.#unnamed.flatMap(({ at, n, first }) =>
      first === null
        ? []
        : [
            diagnostic(
              "warning",
              "unnamed-column",
              `${file}: column ${String(at + 1)} has no name and is filled in ${String(n)} ${n === 1 ? "row" : "rows"} (first in row ${String(first.row)}, "${shortened(first.value)}"), expected a name above it; the column is left out`,
              { file, row: first.row, value: first.value, expected: "a name for the column" },
            ),
          ],
    );
  }

  #leaveOut(cells: ReadonlyArray<string>, row: number, { reason, finding }: NoTest): void {
    this.diagnostics.push(finding);
    this.setAside.push({ file: this.setting.file, row, cells: cells, reasons: [reason] });
  }

  #tell(
    { matched }: ColumnReader,
    cell: string,
    problem: CellProblem,
    row: number,
    reasons: string[],
    found: Diagnostic[],
  ): void {
    const { file } = this.setting;
    const name = matched.typed;
    const value = cell === "" ? "" : ` "${shortened(cell)}"`;
    const expected =
      cell === "" && matched.column?.name === DERIVED_LOAD && this.setting.derivable
        ? INSTEAD_OF_LOAD
        : problem.expected;
    found.push(
      diagnostic(
        problem.severity,
        problem.rule,
        `${file} row ${String(row)}: ${shortened(name)}${value} ${problem.fault}, expected ${expected}`,
        { file, row, column: name, value: cell, expected },
      ),
    );
    if (problem.severity === "error") reasons.push(`${name}${value} ${problem.fault}`);
  }

  /** Action, set-up and load angle that contradict each other. */
  #checkLoads(row: number, reasons: string[], found: Diagnostic[]): void {
    const [action, setup, angle] = [
      this.#byName.get("action"),
      this.#byName.get("setup"),
      this.#byName.get("load_angle_deg"),
    ];
    if (action === undefined || setup === undefined) return;
    for (const { column, cell, fault, expected } of loadContradictions(
      action.pendingText(),
      setup.pendingText(),
      angle?.pendingNumber() ?? NaN,
    )) {
      const { file } = this.setting;
      found.push(
        diagnostic(
          "error",
          "load-contradiction",
          `${file} row ${String(row)}: ${column}${cell === "" ? "" : ` "${cell}"`} ${fault}, expected ${expected}`,
          { file, row, column, value: cell, expected },
        ),
      );
      reasons.push(`${column}${cell === "" ? "" : ` "${cell}"`} ${fault}`);
    }
  }

  /**
   * Takes back the fault of a blank load where another measure of the row gives it; the rule, or
   * null.
   */
  #deriveLoad(
    load: ColumnReader,
    row: number,
    reasons: string[],
    found: Diagnostic[],
  ): string | null {
    const derived = deriveLoad(
      (name) => this.#byName.get(name)?.pendingNumber() ?? NaN,
      this.#byName.get("action")?.pendingText() ?? null,
    );
    if (derived === null) return null;
    const at = found.findIndex(
      (one) => one.rule === "missing-value" && one.column === load.matched.typed,
    );
    found.splice(at, 1);
    const reason = reasons.findIndex((one) => one.startsWith(load.matched.typed));
    if (reason >= 0) reasons.splice(reason, 1);
    load.derive(derived.load_kN);
    return derived.rule;
  }

  /** Null for a blank line; else the reasons for which the row's number of cells is wrong. */
  #lengthFault(cells: ReadonlyArray<string>): string[] | null {
    const wanted = this.setting.header.length;
    if (cells.length === wanted)
      return cells.every((cell) => cell === "" || cell.trim() === "") ? null : [];
    if (cells.every((cell) => cell.trim() === "")) return null;
    if (cells.length > wanted && cells.slice(wanted).every((cell) => cell.trim() === "")) return [];
    return [`${String(cells.length)} cells where the header has ${String(wanted)}`];
  }

  #quoteFault(cells: ReadonlyArray<string>, row: number, fault: string): string[] {
    const expected = "quotation marks doubled inside quoted cells";
    this.diagnostics.push(
      diagnostic(
        "error",
        "stray-quote",
        `${this.setting.file} row ${String(row)}: ${fault}, expected ${expected}`,
        { file: this.setting.file, row, value: cells.join(" | "), expected },
      ),
    );
    return [fault];
  }

  /** Many required cells blank are one fault, a test begun or a total, not as many. */
  #gatherBlanks(row: number, reasons: string[], found: Diagnostic[]): void {
    const blank = found.filter(({ rule, value }) => rule === "missing-value" && value === "");
    if (blank.length <= MOST_BLANKS) return;
    const names = blank.map(({ column }) => column ?? "");
    const what = `${String(names.length)} required cells are blank (${names.slice(0, 3).join(", ")}, …)`;
    found.splice(0, found.length, ...found.filter((one) => !blank.includes(one)));
    reasons.splice(
      0,
      reasons.length,
      ...reasons.filter((reason) => !names.some((name) => reason === `${name} is blank`)),
      what,
    );
    const expected = "a test with all of them filled, or no row";
    found.push(
      diagnostic(
        "error",
        "unfinished-row",
        `${this.setting.file} row ${String(row)}: ${what}, expected ${expected}: a test begun, or a total?`,
        { file: this.setting.file, row, column: names[0] ?? null, value: "", expected },
      ),
    );
  }

  #checkKey(row: number, reasons: string[], found: Diagnostic[]): void {
    const column = this.#key;
    const value = column?.pendingText() ?? null;
    if (column === null || value === null) return;
    const { file } = this.setting;
    const name = column.matched.typed;
    const first = this.#seen.get(value);
    if (first === undefined) {
      this.#seen.set(value, row);
      return;
    }
    found.push(
      diagnostic(
        "error",
        "duplicate-id",
        `${file} row ${String(row)}: ${name} "${shortened(value)}" is already in row ${String(first)}, expected a name used once`,
        { file, row, column: name, value, expected: "a name used once" },
      ),
    );
    reasons.push(`${name} "${value}" is already in row ${String(first)}`);
  }
}
