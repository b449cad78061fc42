import type { Column } from "../schema/column";
import { columnReader } from "./column-reader";
import { decodeText } from "./decode-text";
import { countLines, visitRecords } from "./delimited-text";
import { diagnostic, shortened, type Diagnostic } from "../diagnostics";
import { findHeader } from "./find-header";
import { isUnitsRow, matchHeader, type MatchedColumn } from "./match-header";
import { detectDecimal, pointsMayBeThousands } from "./number-cells";
import { DERIVED_LOAD, INSTEAD_OF_LOAD, MEASURE_COLUMNS } from "./derive-load";
import { RowIntake } from "./row-intake";
import { sha256 } from "./file-bytes";
import type { ReadingOptions, TableReading } from "./table-reading";
import { otherShape, namesInFirstColumn } from "./table-shape";
import { reportMissingWords, reportDerived } from "./reading-reports";

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
 * Reads a delimited text by a schema. A row with any error is set aside whole and listed; the
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
    setAside: [],
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
  const { delimiter, sample, headerAt, header, headerRows } = findHeader(top, schema, options);
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
      `${file} has no column of the data contract (row ${String(headerAt + 1)} reads ${header
        .slice(0, 6)
        .map((cell) => `"${shortened(cell.trim())}"`)
        .join(", ")}${header.length > 6 ? ", …" : ""}), expected names such as ${schema
        .slice(0, 4)
        .map(({ name }) => name)
        .join(", ")}${otherShape(sample, headerAt, schema)}; none of its rows was read`,
      "names of the data contract",
      decoding,
    );
  const diagnostics = [...decoding, ...matching.diagnostics];
  if (headerRows === 2)
    diagnostics.push(
      diagnostic(
        "information",
        "header-in-two-rows",
        `${file}: rows ${String(headerAt + 1)} and ${String(headerAt + 2)} were read together as the column names ("${shortened(header.find((name) => name.includes(" ")) ?? "")}" and so on; say dialect.headerRows in datapackage.json if one row is meant)`,
        { file, row: headerAt + 1, expected: "names in one row" },
      ),
    );
  const above = sample
    .slice(0, headerAt)
    .filter((cells) => cells.some((cell) => cell.trim() !== "")).length;
  if (above > 0 && options.headerRow === undefined)
    diagnostics.push(
      diagnostic(
        "information",
        "rows-above-header",
        `${file}: the column names were read from row ${String(headerAt + 1)}; ${String(above)} ${above === 1 ? "row" : "rows"} above it ${above === 1 ? "was" : "were"} left out (say dialect.headerRows in datapackage.json if another row is meant)`,
        { file, row: headerAt + 1, expected: "a header with the names of the data contract" },
      ),
    );
  const body = sample.slice(headerAt + headerRows + (units === null ? 0 : 1));
  const decimal = options.decimal ?? detectDecimal(numberCells(matching.columns, body));
  // Where semicolons separate, points often do thousands: nothing but a look at the numbers can
  // tell.
  if (
    delimiter === ";" &&
    decimal === "." &&
    options.decimal === undefined &&
    pointsMayBeThousands(numberCells(matching.columns, body))
  ) {
    diagnostics.push(
      diagnostic(
        "warning",
        "thousands-or-decimals",
        `${file}: every number with a point has just three digits behind it, as a thousands separator would; the points were read as decimal points, so that 1.234 is one and a bit. If they separate thousands, write the numbers without`,
        { file, expected: "numbers without thousands separators" },
      ),
    );
  }
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
  for (const { name, meaning } of absent) {
    const likely = matching.suggested.get(name);
    diagnostics.push(
      diagnostic(
        "error",
        "missing-column",
        `${file} has no column ${name} (${meaning}), expected ${name === DERIVED_LOAD ? INSTEAD_OF_LOAD : "one"}${likely === undefined ? "" : ` (is it "${shortened(likely.typed)}"? then name that ${likely.name})`}; no row can be used without it`,
        { file, row: headerAt + 1, column: name, expected: name },
      ),
    );
  }
  const onItsSide = absent.length > 3 ? namesInFirstColumn(sample, schema) : 0;
  if (onItsSide > matching.columns.filter(({ column }) => column !== null).length)
    diagnostics.unshift(
      diagnostic(
        "error",
        "table-on-its-side",
        `${file} has ${String(onItsSide)} names of the data contract in its first column, expected them in one row with a test in each row below: turn the table (paste it transposed)`,
        { file, row: headerAt + 1, expected: "names in one row" },
      ),
    );
  const standing =
    absent.length > 3
      ? [
          `${String(absent.length)} required columns are missing (${absent
            .slice(0, 3)
            .map(({ name }) => name)
            .join(", ")}, …)`,
        ]
      : absent.map(({ name }) => `no column ${name}`);
  const intake = new RowIntake(
    { file, header, columns, key, standing, derivable, delimiter },
    diagnostics,
  );
  const firstRow = headerAt + headerRows + (units === null ? 0 : 1);
  const broken = visitRecords(text, delimiter, (cells, row, fault) => {
    if (row > firstRow) intake.take(cells, row, fault);
  });
  if (broken !== null) {
    diagnostics.push(
      diagnostic(
        "error",
        "broken-quotes",
        `${file} from row ${String(broken.row)} on: ${broken.reason}, expected paired quotation marks; nothing after it could be read`,
        { file, row: broken.row, expected: "paired quotation marks" },
      ),
    );
  }
  if (
    intake.rows.length === 0 &&
    broken === null &&
    !diagnostics.some(({ severity }) => severity === "error")
  ) {
    diagnostics.push(
      diagnostic(
        "error",
        "no-rows",
        `${file} has a header but no ${intake.setAside.length === 0 ? "rows" : "row with a test"}, expected at least one row`,
        { file, expected: "at least one row" },
      ),
    );
  }
  diagnostics.push(...intake.unnamedColumns());
  reportMissingWords(columns, file, diagnostics);
  reportDerived(intake.derivedBy, file, diagnostics);
  return {
    length: intake.rows.length,
    header,
    columns,
    rows: intake.rows,
    diagnostics,
    setAside: intake.setAside,
    sha256: digest,
    derivedBy: intake.derivedBy,
  };
}

function* numberCells(
  columns: ReadonlyArray<MatchedColumn>,
  records: ReadonlyArray<ReadonlyArray<string>>,
): Generator<string> {
  const numeric = columns.filter(({ column }) => column?.kind === "number");
  for (const cells of records) for (const { index } of numeric) yield (cells[index] ?? "").trim();
}
