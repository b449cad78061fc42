import { missingnessByStudy, type TestTable } from "../dataset";
import { clauseOf, type PredictionNeed } from "../provisions";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * Columns that some rows fill and others leave blank, the emptiest last, and the studies that leave
 * them blank. Columns that every row or no row fills are named in the notes.
 */
export function blankCellTable(
  tests: TestTable,
  columns: readonly string[],
  text: TableText,
): Table {
  const found = missingnessByStudy(tests, columns);
  const named = (head: string, of: (one: (typeof found)[number]) => boolean): string[] => {
    const names = found.filter(of).map(({ column }) => column);
    return names.length === 0 ? [] : [`${head}: ${names.join(", ")}.`];
  };
  return new Table({
    ...text,
    rowKey: ["column"],
    columns: [
      { key: "column", title: "column", kind: "text" },
      { key: "filled", title: "filled", kind: "integer" },
      { key: "blank", title: "blank", kind: "integer" },
      { key: "where", title: "blank in", kind: "text" },
    ],
    rows: found
      .filter(({ filled, missing }) => filled > 0 && missing > 0)
      .map(({ column, filled, missing, blankIn }) => ({
        column,
        filled,
        blank: missing,
        where: [
          ...blankIn.slice(0, 3).map((one) => `${one.study_id} (${one.missing} of ${one.of})`),
          ...(blankIn.length > 3 ? [`and ${blankIn.length - 3} more`] : []),
        ].join(", "),
      })),
    notes: [
      ...(text.notes ?? []),
      ...named("Filled in every row", ({ filled, missing }) => filled > 0 && missing === 0),
      ...named("Blank in every row", ({ filled, missing }) => filled === 0 && missing > 0),
      "A blank edge distance is treated as remote. A cover is blank if the bar is not near a surface or the report does not state it.",
    ],
  });
}

const EFFECT: Readonly<Record<PredictionNeed["effect"], string>> = {
  withheld: "no capacity",
  read_as_far: "every edge treated as remote",
  read_as_uncapped: "bar strength does not limit the capacity",
  replaced: "another column is used; the rows are not judged",
};

/** What provisions need and rows do not state. */
export function missingInputTable(needs: readonly PredictionNeed[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["code", "clause", "needs", "effect"],
    columns: [
      { key: "code", title: "code", kind: "text" },
      { key: "clause", title: "clause", kind: "text" },
      { key: "provision", title: "provision", kind: "text" },
      { key: "needs", title: "needs", kind: "text" },
      { key: "effect", title: "until it is stated", kind: "text" },
      { key: "rows", title: "rows", kind: "integer" },
      {
        key: "concerned",
        title: "of",
        kind: "integer",
        note: "rows to which the provision applies",
      },
    ],
    rows: needs.map(({ code, provision, columns, effect, rows, concerned }) => ({
      code: code.id,
      clause: clauseOf(provision.id),
      provision: provision.title,
      needs: columns.join(", "),
      effect: EFFECT[effect],
      rows: rows.length,
      concerned,
    })),
  });
}
