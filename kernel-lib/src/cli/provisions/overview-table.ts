import { clauseOf, type CodeDefinition } from "../../provisions";
import { Table } from "../../tables";
import type { PredictionRow } from "../../provisions/printing/prediction-rows";

/**
 * All capacities of one test on a few lines, the governing one first, the others as multiples of
 * it. What does not apply is listed below with its reason.
 * @param more how to ask for the calculations that do not follow
 */
export function overviewTable(
  code: CodeDefinition,
  rows: readonly PredictionRow[],
  id: string,
  level: string,
  governs: string,
  more: string,
): Table {
  const { force: unit } = code.system.unit;
  const perUnit = code.system.inSi.force / 1000;
  const titleOf = (clause: string): string =>
    code.provisions.find((each) => clauseOf(each.id) === clause)?.title ??
    code.interactions?.find((each) => each.clause === clause)?.title ??
    "";
  const governing = rows.filter((row) => row.governs);
  // With tension and shear together there is a governing capacity of each, and their resultant.
  const least = governing.length === 1 ? (governing[0]?.capacity_kN ?? null) : null;
  const standing = ({ governs: first, capacity_kN, reasons }: PredictionRow): string =>
    [
      first
        ? "governs"
        : least === null || capacity_kN === null
          ? "applies"
          : `${(capacity_kN / least).toPrecision(3)} times the governing`,
      ...reasons,
    ].join("; ");
  const applying = inOrder(rows);
  return new Table({
    id: "overview",
    title: `Test ${id} by ${code.title}, ${level} level`,
    rowKey: ["clause"],
    columns: [
      { key: "mode", title: "capacity", kind: "text" },
      { key: "clause", title: "clause", kind: "text" },
      ...(unit === "kN"
        ? []
        : [{ key: "own", title: "value", kind: "number" as const, unit, digits: 5 }]),
      { key: "capacity_kN", title: "value", kind: "number", unit: "kN", digits: 4 },
      { key: "standing", title: "standing", kind: "text" },
    ],
    rows: applying.map((row) => ({
      mode: titleOf(row.clause),
      clause: row.clause,
      own: row.capacity_kN === null ? null : row.capacity_kN / perUnit,
      capacity_kN: row.capacity_kN,
      standing: standing(row),
    })),
    notes: [
      governs,
      ...rows
        .filter(({ applies }) => !applies)
        .map(
          ({ clause, reasons }) =>
            `Does not apply: ${titleOf(clause)} (${clause}): ${reasons.map((one) => one.replace(`${clause}: `, "").replace("no clause: ", "")).join("; ")}.`,
        ),
      more,
    ].filter((note) => note !== ""),
  });
}

/** What applies: the governing capacity first, then the others from the least to the largest. */
export function inOrder(rows: readonly PredictionRow[]): PredictionRow[] {
  return rows
    .filter(({ applies }) => applies)
    .sort(
      (a, b) =>
        Number(b.governs) - Number(a.governs) || (a.capacity_kN ?? NaN) - (b.capacity_kN ?? NaN),
    );
}
