import { clauseOf, type CodeDefinition } from "../../provisions";
import { Table } from "../../tables";
import type { PredictionRow } from "./prediction-rows";

/** All capacities of one test at a glance: in the edition's unit and in kN, which governs, and why one does not apply. */
export function overviewTable(code: CodeDefinition, rows: readonly PredictionRow[], id: string, level: string, governs: string): Table {
  const { force: unit } = code.system.unit;
  const perUnit = code.system.inSi.force / 1000;
  const provisionOf = (clause: string): string => code.provisions.find((each) => clauseOf(each.id) === clause)?.title ?? code.interactions?.find((each) => each.clause === clause)?.title ?? "";
  const standing = ({ applies, governs: least, reasons }: PredictionRow): string => (least ? "governs" : applies ? ["applies", ...reasons].join("; ") : `does not apply: ${reasons.join("; ")}`);
  return new Table({
    id: "overview", title: `Test ${id} by ${code.title}, ${level} level`, rowKey: ["clause"],
    columns: [
      { key: "mode", title: "failure mode", kind: "text" }, { key: "clause", title: "clause", kind: "text" },
      ...(unit === "kN" ? [] : [{ key: "own", title: "capacity", kind: "number" as const, unit, digits: 5 }]), { key: "capacity_kN", title: "capacity", kind: "number", unit: "kN", digits: 4 },
      { key: "standing", title: "standing", kind: "text" },
    ],
    rows: rows.map((row) => ({ mode: `${row.mode.replaceAll("_", " ")}: ${provisionOf(row.clause)}`, clause: row.clause, own: row.capacity_kN === null ? null : row.capacity_kN / perUnit, capacity_kN: row.capacity_kN, standing: standing(row) })),
    notes: [governs, "Hand calculations of what applies follow. With --clause the calculation of one that does not is printed as far as it goes."].filter((note) => note !== ""),
  });
}
