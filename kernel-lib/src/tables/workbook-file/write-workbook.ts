import { neutralText } from "./neutral-text";
import { numberFormat } from "./number-format";
import { addressOf, sheetNames, type Cell, type Sheet } from "./sheet";
import { styleIndex, stylesXml, WRAPPED } from "./styles";
import { zipArchive, type ArchiveFile } from "./zip";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
/** Longest text that a cell may hold. */
const LONGEST_TEXT = 32_767;
const LINE_POINTS = 12.5;
const MOST_LINES = 30;
const TITLE_POINTS = 22;

/**
 * A workbook in Office Open XML (ISO/IEC 29500, transitional form): numbers as numbers in full
 * precision, text as text that no program runs, formulas with the value they last gave, and a fixed
 * date, so that the same sheets give the same bytes. Programs recalculate it when they open it.
 *
 * @throws Error for a workbook without a sheet or a number that is not finite
 * @example
 * await writeFile("a.xlsx", workbookBytes("Ratios", [{ name: "Ratios", rows: [["a", 1]], widths: [10, 10] }]))
 */
export function workbookBytes(title: string, sheets: readonly Sheet[]): Uint8Array {
  if (sheets.length === 0) throw new Error("The workbook has no sheet. Expected at least one.");
  const names = sheetNames(sheets.map(({ name }) => name));
  const part = (n: number): string => `worksheets/sheet${n + 1}.xml`;
  const files: ArchiveFile[] = [
    {
      name: "[Content_Types].xml",
      content: `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/><Override PartName="/docProps/core.xml" ContentType="application/vnd.openxmlformats-package.core-properties+xml"/>${sheets.map((_, n) => `<Override PartName="/xl/${part(n)}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`).join("")}</Types>`,
    },
    {
      name: "_rels/.rels",
      content: `${HEAD}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${RELATIONS}/officeDocument" Target="xl/workbook.xml"/><Relationship Id="rId2" Type="${PACKAGE}/relationships/metadata/core-properties" Target="docProps/core.xml"/></Relationships>`,
    },
    {
      name: "docProps/core.xml",
      content: `${HEAD}<cp:coreProperties xmlns:cp="${PACKAGE}/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"><dc:title>${xml(title)}</dc:title><dcterms:created xsi:type="dcterms:W3CDTF">2000-01-01T00:00:00Z</dcterms:created><dcterms:modified xsi:type="dcterms:W3CDTF">2000-01-01T00:00:00Z</dcterms:modified></cp:coreProperties>`,
    },
    {
      name: "xl/workbook.xml",
      content: `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${RELATIONS}"><bookViews><workbookView activeTab="0"/></bookViews><sheets>${names.map((name, n) => `<sheet name="${xml(name)}" sheetId="${n + 1}" r:id="rId${n + 1}"/>`).join("")}</sheets>${printTitles(sheets, names)}<calcPr calcId="0" fullCalcOnLoad="1"/></workbook>`,
    },
    {
      name: "xl/_rels/workbook.xml.rels",
      content: `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${sheets.map((_, n) => `<Relationship Id="rId${n + 1}" Type="${RELATIONS}/worksheet" Target="${part(n)}"/>`).join("")}<Relationship Id="rId${sheets.length + 1}" Type="${RELATIONS}/styles" Target="styles.xml"/></Relationships>`,
    },
    { name: "xl/styles.xml", content: stylesXml() },
    ...sheets.map((sheet, n) => ({ name: `xl/${part(n)}`, content: sheetXml(sheet, n === 0) })),
  ];
  return zipArchive(files);
}

/** Frozen heading rows are repeated on every printed page. */
function printTitles(sheets: readonly Sheet[], names: readonly string[]): string {
  const titles = sheets.flatMap(({ frozenRows }, n) =>
    frozenRows
      ? [
          `<definedName name="_xlnm.Print_Titles" localSheetId="${n}">${xml(`'${(names[n] ?? "").replaceAll("'", "''")}'!$1:$${frozenRows}`)}</definedName>`,
        ]
      : [],
  );
  return titles.length === 0 ? "" : `<definedNames>${titles.join("")}</definedNames>`;
}

function sheetXml(sheet: Sheet, first: boolean): string {
  const { frozenRows = 0, frozenColumns = 0, widths } = sheet;
  const corner = addressOf(frozenColumns, frozenRows);
  const held = frozenColumns > 0 ? (frozenRows > 0 ? "bottomRight" : "topRight") : "bottomLeft";
  const pane =
    frozenRows + frozenColumns === 0
      ? ""
      : `<pane${frozenColumns ? ` xSplit="${frozenColumns}"` : ""}${frozenRows ? ` ySplit="${frozenRows}"` : ""} topLeftCell="${corner}" activePane="${held}" state="frozen"/><selection pane="${held}" activeCell="${corner}" sqref="${corner}"/>`;
  const columns =
    widths.length === 0
      ? ""
      : `<cols>${widths.map((width, n) => `<col min="${n + 1}" max="${n + 1}" width="${width}" customWidth="1"/>`).join("")}</cols>`;
  const merged = (sheet.merged ?? []).map(
    (row) => `<mergeCell ref="A${row}:${addressOf(widths.length - 1, row - 1)}"/>`,
  );
  const total = widths.reduce((sum, width) => sum + width, 0);
  const rows = sheet.rows.map((cells, r) => {
    const lines = sheet.merged?.includes(r + 1)
      ? linesOf(cells[0] ?? null, total)
      : Math.max(1, ...cells.map((cell, c) => linesOf(cell, widths[c] ?? 10)));
    const title = cells.some((cell) => typeof cell === "object" && cell?.look === "title");
    const height = title
      ? ` ht="${TITLE_POINTS}" customHeight="1"`
      : lines === 1
        ? ""
        : ` ht="${lines * LINE_POINTS + 2}" customHeight="1"`;
    return `<row r="${r + 1}"${height}>${cells.map((cell, c) => cellXml(cell, addressOf(c, r))).join("")}</row>`;
  });
  return `${HEAD}<worksheet xmlns="${MAIN}"><sheetPr><pageSetUpPr fitToPage="1"/></sheetPr><sheetViews><sheetView showGridLines="0" workbookViewId="0"${first ? ' tabSelected="1"' : ""}>${pane}</sheetView></sheetViews><sheetFormatPr defaultRowHeight="14"/>${columns}<sheetData>${rows.join("")}</sheetData>${merged.length === 0 ? "" : `<mergeCells count="${merged.length}">${merged.join("")}</mergeCells>`}${entryRules(sheet)}<pageMargins left="0.5" right="0.5" top="0.6" bottom="0.6" header="0.3" footer="0.3"/><pageSetup paperSize="9" orientation="landscape" fitToWidth="1" fitToHeight="0"/><headerFooter><oddFooter>&amp;L&amp;A&amp;RPage &amp;P of &amp;N</oddFooter></headerFooter></worksheet>`;
}

const ENTRIES = {
  number: {
    test: '<dataValidation type="decimal" operator="between" allowBlank="0" showErrorMessage="1" errorTitle="A number is needed" error="Type a number without a unit, in the unit of the row." sqref="',
    limits: "<formula1>-1E+300</formula1><formula2>1E+300</formula2>",
  },
  whole: {
    test: '<dataValidation type="whole" operator="greaterThanOrEqual" allowBlank="0" showErrorMessage="1" errorTitle="A whole number is needed" error="Bars are counted: type a whole number from 1 on." sqref="',
    limits: "<formula1>1</formula1>",
  },
} as const;

/** What input cells accept, one rule for all cells of a kind (ISO/IEC 29500-1, 18.3.1.33). */
function entryRules({ entries = [] }: Sheet): string {
  const rules = (["number", "whole"] as const).flatMap((kind) => {
    const cells = entries.filter((one) => one.kind === kind).map(({ cell }) => cell);
    const { test, limits } = ENTRIES[kind];
    return cells.length === 0 ? [] : [`${test}${cells.join(" ")}">${limits}</dataValidation>`];
  });
  return rules.length === 0
    ? ""
    : `<dataValidations count="${rules.length}">${rules.join("")}</dataValidations>`;
}

/** Lines that a wrapped text takes; spreadsheets do not all grow rows by themselves. */
function linesOf(cell: Cell, width: number): number {
  if (
    typeof cell !== "object" ||
    cell === null ||
    typeof cell.value !== "string" ||
    !WRAPPED.has(cell.look ?? "plain")
  )
    return 1;
  return Math.min(
    MOST_LINES,
    cell.value
      .split("\n")
      .reduce((sum, line) => sum + Math.max(1, Math.ceil((line.length * 1.12) / width)), 0),
  );
}

function cellXml(cell: Cell, address: string): string {
  if (cell === null) return "";
  const { value, formula, look = "plain" } = typeof cell === "object" ? cell : { value: cell };
  const style = ` s="${styleIndex(look, typeof value === "string" && formula === undefined && neutralText(value) !== value, typeof value === "number" ? numberFormat(value) : 0)}"`;
  const run = formula === undefined ? "" : `<f>${xml(formula)}</f>`;
  if (value === null)
    return formula === undefined
      ? `<c r="${address}"${style}/>`
      : `<c r="${address}"${style}>${run}</c>`;
  if (typeof value === "number") {
    if (!Number.isFinite(value))
      throw new Error(`Cell ${address} is ${value}. Expected a finite number or an empty cell.`);
    return `<c r="${address}"${style}>${run}<v>${value}</v></c>`;
  }
  if (formula !== undefined)
    return `<c r="${address}"${style} t="${value.startsWith("#") ? "e" : "str"}">${run}<v>${xml(value)}</v></c>`;
  return `<c r="${address}"${style} t="inlineStr"><is><t xml:space="preserve">${xml([...value].slice(0, LONGEST_TEXT).join("").slice(0, LONGEST_TEXT))}</t></is></c>`;
}

/** Text that no XML reader trips over: escaped, and without the characters that XML 1.0 forbids. */
function xml(text: string): string {
  return text
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "")
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, "\ufffd")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");
}
