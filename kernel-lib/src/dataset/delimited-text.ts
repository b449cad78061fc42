import { CsvError, parse } from "csv-parse/sync";

/** Separators that are told apart from the header line. */
export type Delimiter = "," | ";" | "\t";

/** One record: its cells as typed, and its row as a spreadsheet counts it (from 1, blank lines included). */
export type RecordVisitor = (cells: ReadonlyArray<string>, row: number) => void;

/** Why reading stopped before the end of the text; null when it did not. */
export interface BrokenRecord {
  readonly row: number;
  readonly reason: string;
}

/**
 * The separator of a text: the one that occurs most often outside quotes in the first line that has any.
 * A text without any has a single column and is read with commas.
 */
export function detectDelimiter(text: string): Delimiter {
  const counts: Record<Delimiter, number> = { ",": 0, ";": 0, "\t": 0 };
  let quoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const character = text[i];
    if (character === '"') quoted = !quoted;
    else if (!quoted && (character === "," || character === ";" || character === "\t")) counts[character] += 1;
    else if (!quoted && (character === "\n" || character === "\r") && counts[","] + counts[";"] + counts["\t"] > 0) break;
  }
  if (counts["\t"] >= counts[";"] && counts["\t"] >= counts[","] && counts["\t"] > 0) return "\t";
  return counts[";"] > counts[","] ? ";" : ",";
}

/**
 * Visits the records of a delimited text (RFC 4180; line ends CRLF, LF or CR) in order, without holding them all.
 * Texts without any quotation mark, most of all test tables, are split directly; the others go through csv-parse.
 * Both give the same cells (tested), the first is several times as fast.
 */
export function visitRecords(text: string, delimiter: Delimiter, visit: RecordVisitor): BrokenRecord | null {
  return text.includes('"') ? visitQuoted(text, delimiter, visit) : visitPlain(text, delimiter, visit);
}

function visitPlain(text: string, delimiter: Delimiter, visit: RecordVisitor): null {
  // A file has one kind of line end; a lone CR counts only where there is no LF at all.
  const end = text.includes("\n") ? "\n" : "\r";
  let row = 0;
  for (let start = 0; start < text.length; ) {
    let stop = text.indexOf(end, start);
    if (stop === -1) stop = text.length;
    const next = stop + 1;
    if (end === "\n" && stop > start && text.charCodeAt(stop - 1) === 13) stop -= 1;
    row += 1;
    visit(text.slice(start, stop).split(delimiter), row);
    start = next;
  }
  return null;
}

function visitQuoted(text: string, delimiter: Delimiter, visit: RecordVisitor): BrokenRecord | null {
  let row = 0;
  const failure: { thrown: unknown } = { thrown: null };
  try {
    parse(text, {
      delimiter,
      relax_column_count: true,
      relax_quotes: true,
      record_delimiter: text.includes("\n") ? ["\r\n", "\n"] : ["\r"],
      on_record: (cells: string[]) => {
        row += 1;
        try {
          visit(cells, row);
        } catch (error) {
          // Kept apart so that a fault of the visitor is never taken for a fault of the file.
          failure.thrown = error;
          throw error;
        }
        return null;
      },
    });
  } catch (error) {
    if (failure.thrown !== null || !(error instanceof CsvError)) throw error;
    const reason = error.code === "CSV_QUOTE_NOT_CLOSED" ? "a quotation mark is opened and never closed" : "the quotation marks do not pair up";
    return { row: row + 1, reason };
  }
  return null;
}

/** The first records of a text, for finding the header, the units row and the decimal sign. */
export function firstRecords(text: string, delimiter: Delimiter, count: number): string[][] {
  const records: string[][] = [];
  // Enough text for the records wanted, cut at a line end; a quoted newline costs one record at most.
  let stop = 0;
  for (let n = 0; n < count * 2 && stop !== -1; n += 1) stop = nextLineEnd(text, stop);
  visitRecords(stop === -1 ? text : text.slice(0, stop), delimiter, (cells) => {
    if (records.length < count) records.push([...cells]);
  });
  return records;
}

function nextLineEnd(text: string, from: number): number {
  const lineFeed = text.indexOf("\n", from);
  if (lineFeed !== -1) return lineFeed + 1;
  const carriageReturn = text.indexOf("\r", from);
  return carriageReturn === -1 ? -1 : carriageReturn + 1;
}
