import { modeTable, type Comparison as Pairs, valueWords } from "../../comparison";
import type { CodeDefinition } from "../../provisions";
import { Table, type TableColumn, type TableRow, type TableText } from "../../tables";
import type { EvidenceRow } from "./evidence-row";

/** A code's title without what follows the first comma. */
export function shortTitle({ title }: Pick<CodeDefinition, "title">): string {
  return title.split(/,| \(/)[0] ?? title;
}

/**
 * Tables of several codes below one another, with the code as first column; the table itself where
 * there is one code.
 */
export function joinedTables(
  parts: readonly (readonly [code: string, table: Table])[],
  text: TableText,
): Table {
  const [first] = parts;
  if (first === undefined) throw new RangeError("No code to show; expected one or several.");
  if (parts.length === 1) return first[1];
  const keys = [...new Set(parts.flatMap(([, table]) => table.columns.map(({ key }) => key)))];
  const known = new Map(
    parts.flatMap(([, table]) => table.columns.map((column) => [column.key, column] as const)),
  );
  return new Table({
    ...text,
    rowKey: ["code", ...first[1].rowKey],
    columns: [{ key: "code", title: "code", kind: "text" }, ...keys.map((key) => known.get(key)!)],
    rows: parts.flatMap(([code, table]) =>
      table.rows.map((row): TableRow => ({
        ...Object.fromEntries(keys.map((key) => [key, null])),
        ...row,
        code,
      })),
    ),
    notes: [...new Set(parts.flatMap(([, table]) => table.notes))],
  });
}

const EVIDENCE: readonly TableColumn[] = [
  { key: "test_id", title: "test", kind: "text" },
  { key: "study_id", title: "study", kind: "text" },
  { key: "series_id", title: "series", kind: "text" },
  { key: "bar_material", title: "material", kind: "text" },
  { key: "bar_size", title: "size", kind: "text" },
  { key: "failure_mode", title: "observed mode", kind: "text" },
  { key: "provision", title: "provision", kind: "text" },
  { key: "mode", title: "mode judged", kind: "text" },
  { key: "load_kN", title: "load", kind: "number", unit: "kN" },
  { key: "capacity_kN", title: "capacity", kind: "number", unit: "kN" },
  { key: "ratio", title: "ratio", kind: "number" },
  { key: "lower_bound", title: "lower bound", kind: "text" },
  { key: "status", title: "status", kind: "text" },
];

/** Every pair of test and provision that has a ratio. */
export function evidenceTable(rows: readonly EvidenceRow[], text: TableText): Table {
  const words = new Set(["bar_material", "failure_mode", "mode"]);
  const cell = (row: EvidenceRow, key: string): string | number | null => {
    const value = row[key as keyof EvidenceRow] as string | number | null;
    return words.has(key) ? valueWords(value) : value;
  };
  return new Table({
    ...text,
    rowKey: ["test_id", "provision"],
    columns: EVIDENCE,
    rows: rows.map((row) => Object.fromEntries(EVIDENCE.map(({ key }) => [key, cell(row, key)]))),
  });
}

/** Failures and lower bounds by mode, judged pairs only. */
export function lowerBoundTable({ evidence, tests }: Pairs, text: TableText): Table {
  const modes = [...new Set(evidence.map(({ mode }) => mode))].sort();
  const rows = modes.map((mode): TableRow => {
    const of = evidence.filter((one) => one.mode === mode);
    const because = (observed: string): number =>
      of.filter(({ bound, row }) => bound && tests.text(row, "failure_mode") === observed).length;
    const [grip, stopped] = [because("rupture_at_grip"), because("stopped")];
    const bounds = of.filter(({ bound }) => bound).length;
    return {
      mode: valueWords(mode),
      failures: of.length - bounds,
      lower_bounds: bounds,
      grip,
      stopped,
      other_mode: bounds - grip - stopped,
    };
  });
  return new Table({
    ...text,
    rowKey: ["mode"],
    columns: [
      { key: "mode", title: "mode judged", kind: "text" },
      { key: "failures", title: "failures", kind: "integer" },
      {
        key: "lower_bounds",
        title: "lower bounds",
        kind: "integer",
        note: "tests stopped or failed in another mode",
      },
      { key: "grip", title: "broke in the grip", kind: "integer" },
      { key: "stopped", title: "stopped", kind: "integer" },
      { key: "other_mode", title: "failed in another mode", kind: "integer" },
    ],
    rows,
  });
}

/** How often each observed mode was predicted as which. */
export function modesTable(pairs: Pairs, text: TableText): Table {
  const { observed, predicted, counts } = modeTable(pairs);
  return new Table({
    ...text,
    rowKey: ["observed"],
    columns: [
      { key: "observed", title: "observed mode", kind: "text" },
      ...predicted.map((mode) => ({
        key: mode,
        title: `predicted ${valueWords(mode)}`,
        kind: "integer" as const,
      })),
    ],
    rows: observed.map((mode, i): TableRow => ({
      observed: valueWords(mode),
      ...Object.fromEntries(predicted.map((told, k) => [told, counts[i]?.[k] ?? 0])),
    })),
  });
}
