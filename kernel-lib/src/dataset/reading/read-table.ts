import type { Column } from "../schema/column";
import { columnReader } from "./column-reader";
import { decodeText } from "./decode-text";
import { countLines, visitRecords } from "./delimited-text";
import { diagnostic, type Diagnostic } from "../diagnostics";
import { findHeader } from "./find-header";
import { isUnitsRow, matchHeader, type MatchedColumn } from "./match-header";
import { reportAbsent, reportOnItsSide, standingReasons } from "./absent-columns";
import { headerRemarks } from "./header-remarks";
import { detectDecimal } from "./number-cells";
import { numberCells, thousandsOrDecimals } from "./number-columns";
import { DERIVED_LOAD, MEASURE_COLUMNS } from "./derive-load";
import { RowIntake } from "./row-intake";
import { sha256 } from "./file-bytes";
import type { ReadingOptions, TableReading } from "./table-reading";
import { noKnownColumn } from "./table-shape";
import { brokenQuotes, noRows, reportDerived, reportMissingWords } from "./reading-reports";

/**
 * A larger file is refused with a message: the text and its columns are held together, some 1 GB at
 * this size. Half a million tests take about half of it.
 */
export const MAXIMUM_BYTES = 200_000_000;

/**
 * Characters at the start of a text in which titles, header, units and the decimal sign are found.
 */
const TOP = 65_536;

/**
 * Reads a delimited text by a schema. A row with any error is rejected whole and listed; the
 * others go on. `key` names a column whose values must be unique.
 */
export function readTable(
  bytes: Uint8Array,
  file: string,
  schema: ReadonlyArray<Column>,
  key: string | null,
  options: ReadingOptions = {},
): TableReading {
  const digest = sha256(bytes);
  const fail = (
    rule: string,
    message: string,
    expected: string,
    before: ReadonlyArray<Diagnostic> = [],
  ): TableReading => ({
    length: 0,
    header: [],
    columns: [],
    rows: [],
    rejected: [],
    derivedBy: [],
    sha256: digest,
    diagnostics: [...before, diagnostic("error", rule, message, { file, expected })],
  });
  if (bytes.length > MAXIMUM_BYTES)
    return fail(
      "too-large",
      `${file} has ${String(bytes.length)} bytes, expected at most ${String(MAXIMUM_BYTES)}; split it`,
      "a smaller file",
    );
  const { text, diagnostics: decoding } = decodeText(bytes, file);
  if (decoding.some(({ severity }) => severity === "error"))
    return { ...fail("", "", ""), diagnostics: [...decoding] };
  const top = text.slice(0, TOP);
  const found = findHeader(top, schema, options);
  const { delimiter, sample, headerAt, header, headerRows } = found;
  if (headerAt === -1)
    return fail(
      "empty-file",
      `${file} ${top.trim() === "" ? "is empty" : `has no row ${String(options.headerRow ?? 1)}`}, expected a header and rows`,
      "a header and rows",
      decoding,
    );

  const below = sample[headerAt + headerRows];
  const units = below !== undefined && isUnitsRow(below) ? below : null;
  const matching = matchHeader(header, units, schema, file, headerAt + 1, options.declared);
  if (!matching.columns.some(({ column }) => column !== null))
    return fail(
      "no-known-column",
      noKnownColumn(found, schema, file),
      "names of the data contract",
      decoding,
    );
  const diagnostics = [...decoding, ...matching.diagnostics];
  diagnostics.push(...headerRemarks(found, file, options.headerRow === undefined));
  const body = sample.slice(headerAt + headerRows + (units === null ? 0 : 1));
  const decimal = options.decimal ?? detectDecimal(numberCells(matching.columns, body));
  if (delimiter === ";" && decimal === "." && options.decimal === undefined)
    diagnostics.push(...thousandsOrDecimals(numberCells(matching.columns, body), file));
  const mostRows = countLines(text);
  const load = schema.find(({ name, required }) => name === DERIVED_LOAD && required);
  const derivable =
    load !== undefined &&
    matching.columns.some(({ column }) => column !== null && MEASURE_COLUMNS.includes(column));
  // A load that has no column is read as one that is blank in every row, since another measure may
  // give it.
  const implied: MatchedColumn[] =
    derivable && !matching.columns.some(({ column }) => column === load)
      ? [{ index: -1, typed: DERIVED_LOAD, column: load, factor: 1, unit: null }]
      : [];
  const columns = [...matching.columns, ...implied].map((matched) =>
    columnReader(matched, decimal, mostRows),
  );
  const absent = schema.filter(
    ({ name, required }) =>
      required && !columns.some(({ matched }) => matched.column?.name === name),
  );
  reportAbsent(absent, matching, file, headerAt + 1, diagnostics);
  if (absent.length > 3) reportOnItsSide(sample, schema, matching, file, headerAt + 1, diagnostics);
  const standing = standingReasons(absent);
  const intake = new RowIntake(
    { file, header, columns, key, standing, derivable, delimiter },
    diagnostics,
  );
  const firstRow = headerAt + headerRows + (units === null ? 0 : 1);
  const broken = visitRecords(text, delimiter, (cells, row, fault) => {
    if (row > firstRow) intake.take(cells, row, fault);
  });
  if (broken !== null) diagnostics.push(brokenQuotes(broken, file));
  else if (intake.rows.length === 0 && !diagnostics.some(({ severity }) => severity === "error"))
    diagnostics.push(noRows(intake.rejected.length, file));
  diagnostics.push(...intake.unnamedColumns());
  reportMissingWords(columns, file, diagnostics);
  reportDerived(intake.derivedBy, file, diagnostics);
  return {
    length: intake.rows.length,
    header,
    columns,
    rows: intake.rows,
    diagnostics,
    rejected: intake.rejected,
    sha256: digest,
    derivedBy: intake.derivedBy,
  };
}
