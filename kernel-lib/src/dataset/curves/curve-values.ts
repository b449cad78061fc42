import { diagnostic, shortened, type Diagnostic } from "../checks/diagnostics";
import { decodeText } from "../reading/decode-text";
import { detectDelimiter, visitRecords } from "../reading/delimited-text";
import { readNumber } from "../reading/number-cells";
import type { TestRowInput } from "../schema/test-row";
import { TestTable } from "../table/test-table";
import { csvText } from "../writing/write-dataset";
import type { ReducedTest } from "./curves-of-tests";
import type { CurveReduction } from "./reduce-curve";

/** Name of the file of reduced values in a data set's folder; reading the data set joins it to the tests. */
export const CURVE_VALUES_FILE = "curve-values.csv";

/** The column that links a test to its record. It is no column of the data contract, since most data sets have no records, but known everywhere. */
export const CURVE_LINK = { name: "curve", type: "string", description: "load-displacement record of the test, a file of this data set such as curves/A-1.csv" } as const;

/** The columns that reduced values add to tests, and where each comes from. */
const COLUMNS: ReadonlyArray<readonly [string, (r: CurveReduction) => number | null]> = [
  ["curve_peak_kN", (r) => r.peak_load_kN],
  ["curve_slip_at_peak_mm", (r) => r.slip_at_peak_mm],
  ["curve_stiffness_kN_mm", (r) => r.initial_stiffness_kN_mm],
  ["curve_adhesion_load_kN", (r) => r.adhesion_load_kN],
  ["curve_residual_kN", (r) => r.residual_load_kN],
  ["curve_energy_to_peak_kNmm", (r) => r.energy_to_peak_kNmm],
  ["curve_energy_kNmm", (r) => r.energy_kNmm],
];

/** Taken off or found while reducing: for a reader who wants to go back to the record. */
const CORRECTIONS: ReadonlyArray<readonly [string, (r: CurveReduction) => number | null]> = [
  ["zero_load_kN", (r) => r.zero_load_kN], ["seating_mm", (r) => r.seating_mm], ["drift_kN_s", (r) => r.drift_kN_s], ["drift_mm_s", (r) => r.drift_mm_s],
  ["noise_kN", (r) => r.noise_kN], ["unloading_loops", (r) => r.unloading_loops],
];

/** Eight digits: far more than any gauge gives, without the last bits' noise. */
const finite = (value: number | null): number | null => (value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(8)));

/** The reduced values of a record as further columns of its test. */
export function reducedColumns(reduction: CurveReduction): Readonly<Record<string, number | null>> {
  return Object.fromEntries(COLUMNS.map(([name, of]) => [name, finite(of(reduction))]));
}

/** Reduced values as CSV: one line a record, with the link to the record, its SHA-256, every correction and every flag. */
export function curveValuesCsv(curves: ReadonlyArray<ReducedTest>): string {
  const header = ["test_id", "curve", "curve_sha256", ...COLUMNS.map(([name]) => name), ...CORRECTIONS.map(([name]) => name), "free_end_slip_at_peak_mm", "flags"];
  return csvText(header, curves.map(({ test_id, file, sha256, reduction, freeEndSlip_mm }) => [
    test_id, file, sha256, ...[...COLUMNS, ...CORRECTIONS].map(([, of]) => finite(of(reduction))), finite(freeEndSlip_mm), reduction.flags.join("; ") || null,
  ]));
}

/** Tests with reduced values joined by test_id. A blank slip_at_peak_mm is filled from the record; nothing that is there is replaced. */
export function withCurveValues(tests: TestTable, values: ReadonlyMap<string, Readonly<Record<string, number | null>>>): TestTable {
  const rows = tests.rows().map((row): TestRowInput => {
    const own = values.get(row.test_id);
    return own === undefined ? row : { ...row, slip_at_peak_mm: row.slip_at_peak_mm ?? own["curve_slip_at_peak_mm"] ?? null, extra: { ...row.extra, ...own } };
  });
  return TestTable.fromRows(rows, rows.map((_, i) => tests.source(i)));
}

/** A file of reduced values as read. */
export interface CurveValues {
  readonly values: ReadonlyMap<string, Readonly<Record<string, number | null>>>;
  /** SHA-256 of the record that each line was reduced from, by the link. */
  readonly hashes: ReadonlyMap<string, string>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/** Reads a file of reduced values back. A cell that is no number is left out with a warning; so is a file without test_id. */
export function parseCurveValues(bytes: Uint8Array, file: string): CurveValues {
  const { text, diagnostics } = decodeText(bytes, file);
  const found: Diagnostic[] = [...diagnostics];
  const values = new Map<string, Record<string, number | null>>();
  const hashes = new Map<string, string>();
  let header: ReadonlyArray<string> | null = null;
  const broken = visitRecords(text, detectDelimiter(text), (cells, row, fault) => {
    if (header === null) {
      header = cells.map((cell) => cell.trim());
      return;
    }
    const cell = (name: string): string => (cells[header?.indexOf(name) ?? -1] ?? "").trim();
    const id = cell("test_id");
    if (id === "") return;
    const warn = (column: string | null, value: string, what: string): void => void found.push(diagnostic("warning", "bad-curve-value", `${file} row ${String(row)}: ${what}; it is left out`, { file, row, column, value, expected: "a number" }));
    if (fault !== null) return warn(null, id, fault);
    const own: Record<string, number | null> = {};
    for (const [name] of COLUMNS) {
      const value = cell(name) === "" ? null : readNumber(cell(name), ".");
      if (value === null && cell(name) !== "") warn(name, cell(name), `${name} "${shortened(cell(name))}" is not a number, expected one`);
      own[name] = value;
    }
    values.set(id, own);
    hashes.set(cell("curve"), cell("curve_sha256"));
  });
  if (broken !== null || values.size === 0) found.push(diagnostic("warning", "bad-curve-values", `${file} ${broken === null ? "holds no values by test_id" : broken.reason}, expected the file that the command curves writes`, { file, expected: "a file written by the command curves" }));
  return { values, hashes, diagnostics: found };
}
