import { dateStyles, dateText } from "./date-styles";
import { xmlAttribute, xmlElements, xmlPrefix, xmlText } from "./xml-elements";
import { ZipFault, zipEntries, ZIP_LIMITS, type ZipLimits } from "./zip-entries";

/** Largest row and column that are read; a table of tests is far smaller. */
const MAXIMUM_ROWS = 1_048_576;
const MAXIMUM_COLUMNS = 1000;

/**
 * The values of a sheet, row by row as a spreadsheet counts them (index 0 = row 1); blank cells are
 * "".
 */
export interface SheetRows {
  readonly sheet: string;
  readonly sheets: ReadonlyArray<string>;
  readonly rows: ReadonlyArray<ReadonlyArray<string>>;
  /** Sheets that the spreadsheet hides. */
  readonly hiddenSheets: ReadonlyArray<string>;
  /** Cells that hold a spreadsheet error such as #DIV/0!, by place. */
  readonly errors: ReadonlyArray<SheetPlace & { readonly value: string }>;
  /** Cells whose formula was saved without its value; they are blank. */
  readonly unsavedFormulas: ReadonlyArray<SheetPlace>;
  /** Rows that the spreadsheet hides; they are read like any other. */
  readonly hiddenRows: ReadonlyArray<number>;
  /** Places of merged cells, such as A4:A6; only the first holds the value. */
  readonly merged: ReadonlyArray<string>;
}

/** A cell's place, counted from 1. */
export interface SheetPlace {
  readonly row: number;
  readonly column: number;
}

/**
 * Reads the stored values of one sheet of a spreadsheet (Office Open XML, ISO/IEC 29500). Formulas
 * are not calculated: the value saved with them counts. Macros, links to other files and everything
 * but values is left alone.
 * @throws ZipFault when the file is no such spreadsheet, is too large, or has no sheet of that name
 */
export function sheetRows(
  bytes: Uint8Array,
  wantedSheet: string | null = null,
  limits: ZipLimits = ZIP_LIMITS,
): SheetRows {
  const parts = zipEntries(
    bytes,
    (name) =>
      /^xl\/(workbook\.xml|styles\.xml|sharedStrings\.xml|_rels\/workbook\.xml\.rels|worksheets\/[^/]+\.xml)$/.test(
        name,
      ),
    limits,
  );
  const text = (name: string): string | null => {
    const part = parts.get(name);
    return part === undefined ? null : new TextDecoder().decode(part);
  };
  const workbook = text("xl/workbook.xml");
  if (workbook === null) throw new ZipFault("the archive holds no spreadsheet");
  const sheets = [...xmlElements(workbook, `${xmlPrefix(workbook, "workbook")}sheet`)].map(
    ({ attributes }) => ({
      name: xmlText(xmlAttribute(attributes, "name") ?? ""),
      hidden: /^(hidden|veryHidden)$/.test(xmlAttribute(attributes, "state") ?? ""),
      id: xmlAttribute(attributes, "id", true) ?? "",
    }),
  );
  const names = sheets.map(({ name }) => name);
  const chosen =
    wantedSheet === null
      ? (sheets.find(({ hidden }) => !hidden) ?? sheets[0])
      : sheets.find(({ name }) => name === wantedSheet);
  if (chosen === undefined)
    throw new ZipFault(
      wantedSheet === null
        ? "the spreadsheet has no sheet"
        : `the spreadsheet has no sheet "${wantedSheet}", expected one of ${names.join(", ")}`,
    );
  const relations = text("xl/_rels/workbook.xml.rels") ?? "";
  const relation = [
    ...xmlElements(relations, `${xmlPrefix(relations, "Relationships")}Relationship`),
  ].find(({ attributes }) => xmlAttribute(attributes, "Id") === chosen.id);
  const target = xmlAttribute(relation?.attributes ?? "", "Target") ?? "";
  const sheetText = text(target.startsWith("/") ? target.slice(1) : `xl/${target}`);
  if (sheetText === null) throw new ZipFault(`the sheet "${chosen.name}" is not in the file`);
  return {
    sheet: chosen.name,
    sheets: names,
    hiddenSheets: sheets.filter(({ hidden }) => hidden).map(({ name }) => name),
    ...cellsOf(
      sheetText,
      sharedStrings(text("xl/sharedStrings.xml") ?? ""),
      dateStyles(text("xl/styles.xml") ?? ""),
    ),
  };
}

function sharedStrings(xml: string): string[] {
  const prefix = xmlPrefix(xml, "sst");
  return [...xmlElements(xml, `${prefix}si`)].map(({ content }) => textOf(content, prefix));
}

/** The text of a string item: its runs put together, without phonetic hints. */
function textOf(xml: string, prefix: string): string {
  const hint = xml.indexOf(`<${prefix}rPh`);
  return [...xmlElements(hint === -1 ? xml : xml.slice(0, hint), `${prefix}t`)]
    .map(({ content }) => xmlText(content))
    .join("");
}

function cellsOf(
  xml: string,
  shared: ReadonlyArray<string>,
  dates: ReadonlySet<string>,
): Omit<SheetRows, "sheet" | "sheets" | "hiddenSheets"> {
  const prefix = xmlPrefix(xml, "worksheet");
  const rows: string[][] = [];
  const errors: Array<SheetPlace & { value: string }> = [];
  const unsavedFormulas: SheetPlace[] = [];
  const hiddenRows: number[] = [];
  const merged = [...xmlElements(xml, `${prefix}mergeCell`)].map(
    ({ attributes }) => xmlAttribute(attributes, "ref") ?? "",
  );
  let lastRow = 0;
  for (const { attributes: rowAttributes, content } of xmlElements(xml, `${prefix}row`)) {
    const row = Number(xmlAttribute(rowAttributes, "r") ?? lastRow + 1);
    if (!Number.isInteger(row) || row < 1 || row > MAXIMUM_ROWS)
      throw new ZipFault(`the sheet names a row "${String(row)}"`);
    lastRow = row;
    while (rows.length < row) rows.push([]);
    if (xmlAttribute(rowAttributes, "hidden") === "1") hiddenRows.push(row);
    const cells = rows[row - 1] ?? [];
    let column = 0;
    for (const { attributes, content: inner } of xmlElements(content, `${prefix}c`)) {
      const reference = xmlAttribute(attributes, "r");
      column = reference === null ? column + 1 : columnNumber(reference);
      if (column > MAXIMUM_COLUMNS)
        throw new ZipFault(`row ${String(row)} has more than ${String(MAXIMUM_COLUMNS)} columns`);
      const type = xmlAttribute(attributes, "t") ?? "n";
      const stored = cellText(type, inner, shared, prefix);
      // A size such as 10-12 that the spreadsheet took for a date is stored as a count of days:
      // shown as the date, no reader takes it for a number.
      const value =
        type === "n" && dates.has(xmlAttribute(attributes, "s") ?? "") ? dateText(stored) : stored;
      while (cells.length < column) cells.push("");
      cells[column - 1] = value;
      if (type === "e") errors.push({ row, column, value });
      if (value === "" && hasFormula(inner, prefix)) unsavedFormulas.push({ row, column });
    }
  }
  return { rows, errors, unsavedFormulas, hiddenRows, merged };
}

function cellText(
  type: string,
  inner: string,
  shared: ReadonlyArray<string>,
  prefix: string,
): string {
  if (type === "inlineStr") return textOf(inner, prefix);
  const [value] = xmlElements(inner, `${prefix}v`);
  const stored = xmlText(value?.content ?? "");
  if (type === "s") return shared[Number(stored)] ?? "";
  if (type === "b") return stored === "1" ? "yes" : "no";
  return stored;
}

function hasFormula(inner: string, prefix: string): boolean {
  return (
    inner.includes(`<${prefix}f>`) ||
    inner.includes(`<${prefix}f `) ||
    inner.includes(`<${prefix}f/`)
  );
}

function columnNumber(reference: string): number {
  const letters = /^[A-Z]{1,3}/.exec(reference)?.[0] ?? "";
  if (letters === "") throw new ZipFault(`a cell has the place "${reference.slice(0, 20)}"`);
  return [...letters].reduce((number, letter) => number * 26 + letter.charCodeAt(0) - 64, 0);
}

/** The letters by which a spreadsheet names a column, counted from 1. */
export function columnLetters(column: number): string {
  return column <= 26
    ? String.fromCharCode(64 + column)
    : `${columnLetters(Math.floor((column - 1) / 26))}${columnLetters(((column - 1) % 26) + 1)}`;
}
