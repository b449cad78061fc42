import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import type { TestRowInput } from "../schema/test-row";
import { TestTable } from "../table/test-table";
import { decodeText } from "./decode-text";
import { detectDelimiter, visitRecords } from "./delimited-text";
import { readNumber } from "./number-cells";

/**
 * Name of the file of reduced values in a data set's folder; reading the data set joins it to the
 * tests.
 */
export const CURVE_VALUES_FILE = "curve-values.csv";

/**
 * The column that links a test to its record. It is no column of the data contract, since most data
 * sets have no records, but known everywhere.
 */
export const CURVE_LINK = {
  name: "curve",
  type: "string",
  description:
    "load-displacement record of the test, a file of this data set such as curves/A-1.csv",
} as const;

/** The columns that reduced values add to tests. */
export const CURVE_VALUE_COLUMNS = [
  "curve_peak_kN",
  "curve_slip_at_peak_mm",
  "curve_stiffness_kN_mm",
  "curve_adhesion_load_kN",
  "curve_residual_kN",
  "curve_energy_to_peak_kNmm",
  "curve_energy_kNmm",
] as const;

/**
 * Tests with reduced values joined by test_id. A blank slip_at_peak_mm is filled from the record;
 * nothing that is there is replaced.
 */
export function withCurveValues(
  tests: TestTable,
  values: ReadonlyMap<string, Readonly<Record<string, number | null>>>,
): TestTable {
  const rows = tests.rows().map((row): TestRowInput => {
    const own = values.get(row.test_id);
    return own === undefined
      ? row
      : {
          ...row,
          slip_at_peak_mm: row.slip_at_peak_mm ?? own["curve_slip_at_peak_mm"] ?? null,
          extra: { ...row.extra, ...own },
        };
  });
  return TestTable.fromRows(
    rows,
    rows.map((_, i) => tests.source(i)),
  );
}

/** A file of reduced values as read. */
export interface CurveValues {
  readonly values: ReadonlyMap<string, Readonly<Record<string, number | null>>>;
  /** SHA-256 of the record that each line was reduced from, by the link. */
  readonly hashes: ReadonlyMap<string, string>;
  readonly diagnostics: ReadonlyArray<Diagnostic>;
}

/**
 * Reads a file of reduced values back. A cell that is no number is left out with a warning; so is a
 * file without test_id.
 */
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
    const warn = (column: string | null, value: string, what: string): void =>
      void found.push(
        diagnostic(
          "warning",
          "bad-curve-value",
          `${file} row ${String(row)}: ${what}; it is left out`,
          { file, row, column, value, expected: "a number" },
        ),
      );
    if (fault !== null) return warn(null, id, fault);
    const own: Record<string, number | null> = {};
    for (const name of CURVE_VALUE_COLUMNS) {
      const value = cell(name) === "" ? null : readNumber(cell(name), ".");
      if (value === null && cell(name) !== "")
        warn(name, cell(name), `${name} "${shortened(cell(name))}" is not a number, expected one`);
      own[name] = value;
    }
    values.set(id, own);
    hashes.set(cell("curve"), cell("curve_sha256"));
  });
  if (broken !== null || values.size === 0)
    found.push(
      diagnostic(
        "warning",
        "bad-curve-values",
        `${file} ${broken === null ? "holds no values by test_id" : broken.reason}, expected the file that the command curves writes`,
        { file, expected: "a file written by the command curves" },
      ),
    );
  return { values, hashes, diagnostics: found };
}
