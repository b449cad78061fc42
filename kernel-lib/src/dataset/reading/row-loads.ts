import { diagnostic, type Diagnostic } from "../diagnostics";
import type { ColumnReader } from "./column-reader";
import { deriveLoad } from "./derive-load";
import { loadContradictions } from "./load-contradictions";

/** The columns of a file by their name in the schema. */
export type ColumnsByName = ReadonlyMap<string, ColumnReader>;

/** Action, set-up and load angle that contradict each other. */
export function checkLoads(
  columns: ColumnsByName,
  file: string,
  row: number,
  reasons: string[],
  found: Diagnostic[],
): void {
  const [action, setup, angle] = [
    columns.get("action"),
    columns.get("setup"),
    columns.get("load_angle_deg"),
  ];
  if (action === undefined || setup === undefined) return;
  for (const { column, cell, fault, expected } of loadContradictions(
    action.pendingText(),
    setup.pendingText(),
    angle?.pendingNumber() ?? NaN,
  )) {
    found.push(
      diagnostic(
        "error",
        "load-contradiction",
        `${file} row ${String(row)}: ${column}${cell === "" ? "" : ` "${cell}"`} ${fault}, expected ${expected}`,
        { file, row, column, value: cell, expected },
      ),
    );
    reasons.push(`${column}${cell === "" ? "" : ` "${cell}"`} ${fault}`);
  }
}

/**
 * Takes back the fault of a blank load where another measure of the row gives it; the rule, or
 * null.
 */
export function deriveBlankLoad(
  columns: ColumnsByName,
  load: ColumnReader,
  reasons: string[],
  found: Diagnostic[],
): string | null {
  const derived = deriveLoad(
    (name) => columns.get(name)?.pendingNumber() ?? NaN,
    columns.get("action")?.pendingText() ?? null,
  );
  if (derived === null) return null;
  const at = found.findIndex(
    (one) => one.rule === "missing-value" && one.column === load.matched.typed,
  );
  found.splice(at, 1);
  const reason = reasons.findIndex((one) => one.startsWith(load.matched.typed));
  if (reason >= 0) reasons.splice(reason, 1);
  load.derive(derived.load_kN);
  return derived.rule;
}
