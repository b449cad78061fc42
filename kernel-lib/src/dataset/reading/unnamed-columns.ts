import { diagnostic, shortened, type Diagnostic } from "../diagnostics";

/** Columns without a name: nobody can say what stands in them, so it is left out, aloud. */
export class UnnamedColumns {
  readonly #columns: ReadonlyArray<{
    readonly at: number;
    /** Rows that fill it, and the first of them. */
    n: number;
    first: { readonly row: number; readonly value: string } | null;
  }>;

  constructor(header: ReadonlyArray<string>) {
    this.#columns = header.flatMap((name, at) =>
      name.trim() === "" ? [{ at, n: 0, first: null }] : [],
    );
  }

  take(cells: ReadonlyArray<string>, row: number): void {
    for (const column of this.#columns) {
      const value = (cells[column.at] ?? "").trim();
      if (value === "") continue;
      column.n += 1;
      column.first ??= { row, value };
    }
  }

  findings(file: string): Diagnostic[] {
    return this.#columns.flatMap(({ at, n, first }) =>
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
}
