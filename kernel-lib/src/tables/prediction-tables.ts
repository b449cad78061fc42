import { testColumn } from "../dataset";
import { clauseOf, variableWords, type ProvisionUse } from "../provisions";
import type { PredictionRow } from "../provisions/printing/prediction-rows";
import type { CellValue, TableColumn, TableRow } from "./column";
import type { TableText } from "./table-text";
import { Table } from "./table";

/** The governing capacity of one test, beside its load where it has one. */
export interface GoverningCapacity {
  readonly test_id: string;
  readonly code: string;
  readonly failure_mode: string | null;
  readonly governing_mode: string | null;
  readonly clause: string | null;
  readonly capacity_kN: number | null;
  readonly load_kN: number | null;
  readonly ratio: number | null;
  readonly missing: string | null;
  readonly outside: string | null;
  readonly reason: string | null;
}

/** Columns of the tests that are shown beside their capacities, such as those of a what-if. */
export interface ShownInputs {
  readonly columns: readonly string[];
  readonly of: (test_id: string) => Readonly<Record<string, CellValue>>;
}

const NO_INPUTS: ShownInputs = { columns: [], of: () => ({}) };
const words = (mode: string | null): string | null => mode?.replaceAll("_", " ") ?? null;
const TEST: TableColumn = { key: "test_id", title: "test", kind: "text" };
const CODE: TableColumn = { key: "code", title: "code", kind: "text" };

/**
 * The governing capacity of each test. The ratio is that of the load to the governing capacity,
 * whatever mode was observed; columns that no row fills are left out.
 */
export function governingTable(
  rows: readonly GoverningCapacity[],
  text: TableText,
  inputs: ShownInputs = NO_INPUTS,
): Table {
  const codes = new Set(rows.map(({ code }) => code));
  const filled = (key: keyof GoverningCapacity): boolean => rows.some((row) => row[key] !== null);
  const columns: TableColumn[] = [
    ...keyColumns(codes),
    ...inputColumns(inputs),
    { key: "failure_mode", title: "observed mode", kind: "text" },
    { key: "governing_mode", title: "governing mode", kind: "text" },
    { key: "clause", title: "clause", kind: "text" },
    { key: "capacity_kN", title: "governing capacity", kind: "number", unit: "kN" },
    { key: "load_kN", title: "peak load", kind: "number", unit: "kN" },
    {
      key: "ratio",
      title: "load / capacity",
      kind: "number",
      note: "ratio of peak load to governing capacity, for any observed mode; a lower bound where the test was stopped or the bar broke in the grip; not used in any verdict",
    },
    {
      key: "missing",
      title: "not evaluated",
      kind: "text",
      note: "modes possible in the test that lack an input; these may govern",
    },
    { key: "outside", title: "outside stated range", kind: "text" },
    { key: "reason", title: "no capacity because", kind: "text" },
  ];
  const optional = new Set(["failure_mode", "load_kN", "ratio", "missing", "outside", "reason"]);
  const shown = columns.filter(
    ({ key }) => !optional.has(key) || filled(key as keyof GoverningCapacity),
  );
  return new Table({
    ...text,
    rowKey: keyColumns(codes).map(({ key }) => key),
    columns: shown,
    rows: rows.map((row): TableRow => {
      const cells: TableRow = {
        ...inputs.of(row.test_id),
        ...row,
        failure_mode: words(row.failure_mode),
        governing_mode: words(row.governing_mode),
      };
      return Object.fromEntries(shown.map(({ key }) => [key, cells[key] ?? null]));
    }),
  });
}

/** Every capacity of each test, the governing one marked, with the reason where there is none. */
export function capacityTable(
  rows: readonly PredictionRow[],
  text: TableText,
  inputs: ShownInputs = NO_INPUTS,
): Table {
  const codes = new Set(rows.map(({ code }) => code));
  const keys = keyColumns(codes);
  return new Table({
    ...text,
    rowKey: [...keys.map(({ key }) => key), "clause"],
    columns: [
      ...keys,
      ...inputColumns(inputs),
      { key: "mode", title: "mode", kind: "text" },
      { key: "clause", title: "clause", kind: "text" },
      { key: "capacity_kN", title: "capacity", kind: "number", unit: "kN" },
      { key: "governs", title: "governs", kind: "text" },
      { key: "reasons", title: "remarks", kind: "text" },
    ],
    rows: rows.map((row): TableRow => ({
      ...inputs.of(row.test_id),
      test_id: row.test_id,
      ...(codes.size > 1 ? { code: row.code } : {}),
      clause: row.clause,
      mode: words(row.mode),
      capacity_kN: row.capacity_kN,
      governs: row.governs ? "yes" : null,
      reasons:
        [...row.reasons, ...row.rests_on.map((one) => `based on: ${one}`)].join("; ") || null,
    })),
  });
}

/**
 * What each provision says of the tests: reached, with a capacity, governing, and why not; those
 * that no test can reach stand in a note.
 */
export function provisionUseTable(
  uses: readonly { readonly code: string; readonly of: readonly ProvisionUse[] }[],
  text: TableText,
): Table {
  return new Table({
    ...text,
    rowKey: ["code", "clause"],
    columns: [
      CODE,
      { key: "clause", title: "clause", kind: "text" },
      { key: "mode", title: "mode", kind: "text" },
      {
        key: "reached",
        title: "tests",
        kind: "integer",
        note: "with a set-up that permits the mode",
      },
      { key: "capacities", title: "with a capacity", kind: "integer" },
      { key: "governs", title: "governed by it", kind: "integer" },
      { key: "reasons", title: "no capacity because (rows)", kind: "text" },
    ],
    rows: uses.flatMap(({ code, of }) =>
      of
        .filter(({ reached }) => reached > 0)
        .map((use): TableRow => ({
          code,
          clause: clauseOf(use.provision.id),
          mode: use.provision.modes.map(words).join(", "),
          reached: use.reached,
          capacities: use.capacities,
          governs: use.governs,
          reasons: use.reasons.map(({ says, rows }) => `${says} (${rows})`).join("; ") || null,
        })),
    ),
    notes: [
      ...uses.flatMap(({ code, of }) => {
        const others = of.filter(({ reached }) => reached === 0);
        const clauses = others.map(({ provision }) => clauseOf(provision.id)).join(", ");
        return others.length === 0 ? [] : [`${code}: no row permits a mode of ${clauses}.`];
      }),
      ...(text.notes ?? []),
    ],
  });
}

/** The code is a column where there are several. */
function keyColumns(codes: ReadonlySet<string>): TableColumn[] {
  return codes.size > 1 ? [TEST, CODE] : [TEST];
}

function inputColumns({ columns }: ShownInputs): TableColumn[] {
  return columns.map((key): TableColumn => {
    const column = testColumn(key);
    const number = column?.kind === "number" || column?.kind === "integer";
    return {
      key,
      title: variableWords(key),
      kind: number ? "number" : "text",
      ...(column?.unit ? { unit: column.unit } : {}),
      ...(number ? { limit: null, digits: 4 } : {}),
    };
  });
}
