import { columnTitle } from "../../figures";
import { Table, type TableRow } from "../../tables";
import { KeptTable } from "../results/kept";
import { count, fileName, knownName } from "../results/names";
import type { TableOptions } from "../results/result";
import { inventedIn } from "./plot-of";

/**
 * A table of rows of your own; the columns are the keys of the rows, with the unit that the ending
 * of a name states.
 * @throws UnknownNameError for a column that no row has
 * @example tableOf([{ bar: "GFRP", mean_MPa: 12.1 }], { title: "Bond stress" })
 */
export function tableOf(rows: Iterable<object>, options: TableOptions = {}): KeptTable {
  const all = [...rows] as Readonly<Record<string, unknown>>[];
  const known = [...new Set(all.flatMap((row) => Object.keys(row)))];
  const keys = options.columns ?? known;
  if (all.length > 0) for (const key of keys) knownName("column", key, known);
  const numeric = (key: string): boolean =>
    all.some((row) => typeof row[key] === "number") &&
    all.every((row) => typeof (row[key] ?? 0) === "number");
  const invented = inventedIn(all);
  const stamp =
    invented === false
      ? []
      : [
          invented === true
            ? "Invented demonstration data."
            : "Includes invented demonstration data.",
        ];
  const title = options.title ?? count(all.length, "row");
  const content = new Table({
    id: fileName(options.name ?? title),
    title,
    ...(options.caption === undefined ? {} : { caption: options.caption }),
    rowKey: [],
    columns: keys.map((key) => {
      const named = columnTitle(key);
      const unit = numeric(key) ? named.unit : null;
      return {
        key,
        title: unit === null ? key.replaceAll("_", " ") : named.title.toLowerCase(),
        kind: numeric(key) ? ("number" as const) : ("text" as const),
        limit: null,
        ...(unit === null ? {} : { unit }),
      };
    }),
    rows: all.map((row) =>
      Object.fromEntries(keys.map((key) => [key, cellOf(row[key], numeric(key))])),
    ) as TableRow[],
    notes: [...(options.notes ?? []), ...stamp],
  });
  return new KeptTable(content, true);
}

function cellOf(value: unknown, numeric: boolean): string | number | null {
  if (typeof value === "number") return numeric ? value : String(value);
  if (value === null || value === undefined) return null;
  return typeof value === "object" ? JSON.stringify(value) : String(value as string | boolean);
}
