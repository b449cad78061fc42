import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { gatherBlanks, lengthFault } from "./blank-cells";
import type { CellProblem, ColumnReader } from "./column-reader";
import { DERIVED_LOAD, INSTEAD_OF_LOAD } from "./derive-load";
import { checkLoads, deriveBlankLoad, type ColumnsByName } from "./row-loads";
import { noTest, type NoTest } from "./row-kinds";
import type { RowSetAside } from "./row-set-aside";
import type { IntakeSetting } from "./intake-setting";
import { otherSeparator, SEPARATOR_NAMES, raggedRow } from "./ragged-row";
import { UnnamedColumns } from "./unnamed-columns";

/** Takes records one by one, deciding for each whether it is used or rejected. */
export class RowIntake {
  readonly rows: number[] = [];
  readonly derivedBy: Array<string | null> = [];
  readonly rejected: RowSetAside[] = [];
  readonly #seen = new Map<string, number>();
  /** Found once: these are asked for every row. */
  readonly #key: ColumnReader | null;
  readonly #byName: ColumnsByName;
  readonly #requiredAt: ReadonlyArray<number>;
  readonly #unnamed: UnnamedColumns;

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
    this.#unnamed = new UnnamedColumns(setting.header);
    this.#requiredAt = columns.flatMap(({ matched }) =>
      matched.column?.required === true && matched.index >= 0 ? [matched.index] : [],
    );
  }

  take(cells: ReadonlyArray<string>, row: number, fault: string | null): void {
    const { file, columns, standing } = this.setting;
    const reasons =
      fault === null
        ? lengthFault(cells, this.setting.header.length)
        : this.#quoteFault(cells, row, fault);
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
        rule = deriveBlankLoad(this.#byName, load, reasons, found);
      if (reasons.length === 0) checkLoads(this.#byName, file, row, reasons, found);
      if (reasons.length > 0) {
        const other = noTest(cells, this.setting.header, this.#requiredAt, file, row);
        if (other !== null) return this.#leaveOut(cells, row, other);
      }
      gatherBlanks(file, row, reasons, found);
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
      this.rejected.push({ file, row, cells: cells, reasons: [...standing, ...reasons] });
      return;
    }
    this.#unnamed.take(cells, row);
    for (const column of columns) column.commit();
    this.rows.push(row);
    this.derivedBy.push(rule);
  }

  /** What stands in columns without a name. */
  unnamedColumns(): Diagnostic[] {
    return this.#unnamed.findings(this.setting.file);
  }

  #leaveOut(cells: ReadonlyArray<string>, row: number, { reason, finding }: NoTest): void {
    this.diagnostics.push(finding);
    this.rejected.push({ file: this.setting.file, row, cells: cells, reasons: [reason] });
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
