import type { DataFrame } from "danfojs-node";
import type { Table } from "../../tables";

/**
 * A danfojs frame of a table, for showing and filtering in a notebook; a missing number is NaN.
 * Compute with the library, not with the frame: it counts missing values as 0 in groups.
 * @example const frame = await tableFrame(groups.table()); frame.print();
 */
export async function tableFrame(table: Table): Promise<DataFrame> {
  const { DataFrame: Frame } = await import("danfojs-node");
  const numeric = new Set(
    table.columns
      .filter(({ kind }) => kind === "number" || kind === "integer")
      .map(({ key }) => key),
  );
  const columns = Object.fromEntries(
    table.columns.map(({ key }) => {
      const cells = table.column(key);
      return [
        key,
        numeric.has(key)
          ? cells.map((cell) => (typeof cell === "number" ? cell : NaN))
          : cells.map((cell) => (cell === null ? null : String(cell))),
      ];
    }),
  );
  // Types are given, not inferred: danfojs would guess them from the first rows and turn "007" into
  // a number.
  return new Frame(columns, {
    config: {},
    dtypes: table.columns.map(({ key }) => (numeric.has(key) ? "float32" : "string")),
  });
}
