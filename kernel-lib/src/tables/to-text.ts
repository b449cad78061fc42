import { brokenLine } from "../formula";
import { headingOf, alignOf, type TableColumn } from "./column";
import { columnPieces } from "./column-pieces";
import { columnRoom, pageText, sharedWidths } from "./column-widths";
import { notesOf } from "./notes";
import type { TableContent } from "./table-content";

const GAP = 2;
const MEASURE = { widthOf: length, gap: GAP, shortName: 24 };

/**
 * Aligned plain text for a terminal and for a notebook without rich output. A table wider than
 * `width` characters breaks the lines of its cells; where even its words do not fit side by side,
 * it goes on below with its first columns repeated.
 */
export function toText(table: TableContent, width = Infinity): string {
  const notes = notesOf(table).map((note) => brokenLine(note, width, 2));
  return [
    brokenLine(table.caption ?? table.title, width, 2),
    ...columnPieces(table, width, MEASURE).flatMap((block, n) => [
      ...(n === 0 ? [] : [""]),
      ...blockLines(block, width),
    ]),
    ...notes,
  ].join("\n");
}

function blockLines(table: TableContent, width: number): string[] {
  const cells = table.rows.map((row) =>
    table.columns.map((column) => pageText(column, row[column.key]).replaceAll("\u00a0", " ")),
  );
  const natural = table.columns.map((column, c) =>
    Math.max(length(headingOf(column)), ...cells.map((row) => length(row[c] ?? ""))),
  );
  const room = width - GAP * (table.columns.length - 1);
  const widths =
    natural.reduce((all, one) => all + one, 0) <= room
      ? natural
      : sharedWidths(columnRoom(table, length, room), room).map((one, c) =>
          Math.min(natural[c] ?? 0, Math.floor(one)),
        );
  // Headings stand on the rule, cells begin at the first line of their row.
  const broken = (parts: readonly string[]): string[][] =>
    parts.map((part, c) =>
      (widths[c] === natural[c] ? part : brokenLine(part, widths[c] ?? 0, 0)).split("\n"),
    );
  const lines = (parts: readonly string[], below: boolean): string[] => {
    const pieces = broken(parts);
    const height = Math.max(...pieces.map((one) => one.length));
    const at = (piece: readonly string[], k: number): string =>
      piece[below ? k - height + piece.length : k] ?? "";
    return Array.from({ length: height }, (_, k) =>
      table.columns
        .map((column, c) => pad(at(pieces[c] ?? [], k), widths[c] ?? 0, column))
        .join(" ".repeat(GAP))
        .trimEnd(),
    );
  };
  return [
    ...lines(table.columns.map(headingOf), true),
    widths.map((one) => "─".repeat(one)).join(" ".repeat(GAP)),
    ...cells.flatMap((row) => lines(row, false)),
  ];
}

function length(text: string): number {
  return [...text].length;
}

function pad(text: string, width: number, column: TableColumn): string {
  const room = Math.max(0, width - length(text));
  const before = { left: 0, right: room, center: Math.floor(room / 2) }[alignOf(column)];
  return " ".repeat(before) + text + " ".repeat(room - before);
}
