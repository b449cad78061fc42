import { Table } from "./table";
import type { TableText } from "./table-text";

/** The factor of one mode, and whether it becomes a change of the code. */
export interface ModeFactor {
  readonly mode: string;
  /** The rounded factor of each class, in words. */
  readonly classes: string;
  /** The group that the factor of the mode comes from. */
  readonly from: string | null;
  readonly provisions: string | null;
  /** The factor of the change; null where the mode gets none. */
  readonly change: number | null;
  readonly reason: string;
}

/** The modes with their factors: which become changes of the code, and why the others do not. */
export function modeFactorTable(found: readonly ModeFactor[], text: TableText): Table {
  return new Table({
    ...text,
    rowKey: ["mode"],
    columns: [
      { key: "mode", title: "mode", kind: "text" },
      { key: "classes", title: "factor of each class", kind: "text" },
      {
        key: "change",
        title: "change",
        kind: "number",
        digits: 2,
        note: "one factor for all FRP bars",
      },
      { key: "provisions", title: "provisions", kind: "text" },
      { key: "reason", title: "finding", kind: "text" },
    ],
    rows: found.map(({ mode, classes, change, provisions, reason }) => ({
      mode,
      classes,
      change,
      provisions,
      reason,
    })),
  });
}
