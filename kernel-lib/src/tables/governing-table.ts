import { testColumn } from "../dataset";
import { columnTitle } from "../units";
import { variableWords, type GoverningLine } from "../provisions";
import type { TableRow } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** One line of a map of governing modes, and what is held along it. */
export interface HeldLine {
  readonly line: GoverningLine;
  /** The other variable and its value; null where one variable alone is followed. */
  readonly held: { readonly column: string; readonly value: number; readonly own: boolean } | null;
}

/** A value of a column with its name and unit: "embedment 125 mm". */
export function heldWords(column: string, value: number): string {
  const unit = testColumn(column)?.unit ?? "";
  return `${variableWords(column)} ${Number(value.toPrecision(4))}${unit === "" ? "" : ` ${unit}`}`;
}

/**
 * Along which line which mode governs from where to where, with the governing capacity at both
 * ends.
 */
export function governingLinesTable(lines: readonly HeldLine[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["along", "at", "from"],
    columns: [
      { key: "along", title: "along", kind: "text" },
      { key: "at", title: "at", kind: "text" },
      { key: "from", title: "from", kind: "number", digits: 4, limit: null },
      { key: "to", title: "to", kind: "number", digits: 4, limit: null },
      { key: "mode", title: "governing mode", kind: "text" },
      { key: "capacity_from_kN", title: "capacity from", kind: "number", unit: "kN" },
      { key: "capacity_to_kN", title: "to", kind: "number", unit: "kN" },
    ],
    rows: lines.flatMap(({ line, held }) =>
      line.stretches.map((one): TableRow => ({
        along: headOf(line.column),
        at:
          held === null
            ? null
            : `${heldWords(held.column, held.value)}${held.own ? " (the specimen's)" : ""}`,
        from: one.from,
        to: one.to,
        mode: one.mode?.replaceAll("_", " ") ?? "no capacity",
        capacity_from_kN: one.capacityFrom_N / 1000,
        capacity_to_kN: one.capacityTo_N / 1000,
      })),
    ),
  });
}

/** A column as the head of a table: "Concrete strength (MPa)". */
function headOf(column: string): string {
  const { title, unit } = columnTitle(column);
  return unit === null ? title : `${title} (${unit})`;
}
