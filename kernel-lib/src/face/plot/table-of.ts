import { columnTitle } from "../../units";
import { Table, type TableColumn, type TableRow } from "../../tables";
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
  const cells = all.map((row): TableRow =>
    Object.fromEntries(keys.map((key) => [key, cellOf(row[key], numeric(key))])),
  );
  const key = rowKeyOf(keys, cells);
  const numbered = key === null ? [{ key: ROW, title: ROW, kind: "integer" as const }] : [];
  const content = new Table({
    id: fileName(options.name ?? title),
    title,
    ...(options.caption === undefined ? {} : { caption: options.caption }),
    rowKey: key ?? [ROW],
    columns: [...numbered, ...keys.map((name) => columnOf(name, numeric(name)))],
    rows: key === null ? cells.map((row, i) => ({ [ROW]: i + 1, ...row })) : cells,
    notes: [...(options.notes ?? []), ...stamp],
  });
  return new KeptTable(content, true);
}

function cellOf(value: unknown, numeric: boolean): string | number | null {
  if (typeof value === "number") return numeric ? value : String(value);
  if (value === null || value === undefined) return null;
  return typeof value === "string" ? value : JSON.stringify(value);
}

/** Name of the column of row numbers, where no columns tell the rows apart. */
const ROW = "row";

/** The fewest first columns that tell the rows apart; null where all of them do not. */
function rowKeyOf(keys: readonly string[], rows: readonly TableRow[]): readonly string[] | null {
  for (let k = 1; k <= keys.length; k += 1) {
    const some = keys.slice(0, k);
    const known = new Set(rows.map((row) => JSON.stringify(some.map((key) => row[key]))));
    if (known.size === rows.length) return some;
  }
  return null;
}

function columnOf(key: string, numeric: boolean): TableColumn {
  const { title, unit } = columnTitle(key);
  const named = numeric && unit !== null;
  return {
    key,
    title: named ? title.toLowerCase() : key.replaceAll("_", " "),
    kind: numeric ? "number" : "text",
    limit: null,
    ...(named ? { unit } : {}),
  };
}
