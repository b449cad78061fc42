import type { DataFrame } from "danfojs-node";
import { TEST_COLUMNS } from "../schema/test-columns";
import type { TestTable } from "./test-table";

/**
 * A danfojs frame of the tests, for showing and filtering in a notebook. Missing numbers are NaN,
 * missing texts null. The values are copies: writing to the frame changes nothing here. Columns
 * without any value are left out. Do arithmetic and statistics with the library, not with the
 * frame: it counts missing values as 0 in groups and gives 0 for the standard deviation of one
 * value.
 * @example const frame = await toFrame(tests); frame.print();
 */
export async function toFrame(tests: TestTable): Promise<DataFrame> {
  const { DataFrame: Frame } = await import("danfojs-node");
  const columns: Record<string, Array<string | number | null>> = {};
  const names = [
    ...TEST_COLUMNS.map(({ name, kind, required }) => ({
      name,
      numeric: kind === "number" || kind === "integer",
      required,
    })),
    ...tests.extraColumns.map(({ name, kind }) => ({
      name,
      numeric: kind === "number",
      required: false,
    })),
  ];
  for (const { name, numeric, required } of names) {
    const cells: Array<string | number | null> = numeric
      ? Array.from(tests.numbers(name))
      : [...tests.texts(name)];
    if (required || cells.some((cell) => cell !== null && !Number.isNaN(cell)))
      columns[name] = cells;
  }
  // Types are given, not inferred: danfojs would guess them from the first rows and turn "007" into
  // a number.
  const dtypes = names
    .filter(({ name }) => name in columns)
    .map(({ numeric }) => (numeric ? "float32" : "string"));
  return new Frame(columns, { config: {}, dtypes });
}
