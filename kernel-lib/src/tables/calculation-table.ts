import { calculation, type Trace } from "../provisions";
import type { TableRow } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

/**
 * A hand calculation line by line, in the cases that the row takes: inputs, steps with formula and
 * numbers, limits, result. Values are written with their units, as on paper.
 */
export function calculationTable(trace: Trace | null, text: TableText): Table {
  const found = trace === null ? null : calculation(trace);
  const rows = (found?.parts ?? []).flatMap(({ heading, inputs, asAbove, steps, limits }) => [
    ...inputs.map((line) => ({ part: heading, kind: "input", ...cells(line) })),
    ...(asAbove.length > 0
      ? [{ part: heading, kind: "input", symbol: asAbove.join(", "), meaning: "as above" }]
      : []),
    ...steps.map((line) => ({ part: heading, kind: "step", ...cells(line) })),
    ...limits.map(({ clause, says, verdict }) => ({
      part: heading,
      kind: "limit",
      clause,
      value: verdict,
      meaning: says,
    })),
  ]);
  const parted = rows.some(({ part }) => part !== "");
  return new Table({
    ...text,
    rowKey: ["line"],
    columns: [
      { key: "line", title: "line", kind: "integer" },
      ...(parted ? [{ key: "part", title: "bars", kind: "text" as const }] : []),
      { key: "kind", title: "kind", kind: "text" },
      { key: "symbol", title: "symbol", kind: "text" },
      { key: "formula", title: "formula", kind: "text" },
      { key: "substituted", title: "with numbers", kind: "text" },
      { key: "value", title: "value", kind: "text", align: "right" },
      { key: "clause", title: "clause", kind: "text" },
      { key: "meaning", title: "meaning", kind: "text" },
    ],
    rows: rows.map(({ part, ...row }, k): TableRow => ({
      ...row,
      line: k + 1,
      ...(parted ? { part } : {}),
    })),
    notes: [
      ...(found === null ? [] : [found.source, found.result, ...found.notes, found.caution]),
      ...(text.notes ?? []),
    ],
  });
}

interface Written {
  readonly symbol: string;
  readonly formula: string;
  readonly substituted: string;
  readonly value: string;
  readonly clause: string;
  readonly meaning: string;
}

const cells = ({ symbol, formula, substituted, value, clause, meaning }: Written): Written => ({
  symbol,
  formula,
  substituted,
  value,
  clause,
  meaning,
});
