/** Separators that are recognized from the header line. */
export type Delimiter = "," | ";" | "\t";

/**
 * One record: its cells as typed, its row as a spreadsheet counts it (from 1, blank lines
 * included), and what is wrong with its quotation marks (null when nothing is).
 */
export type RecordVisitor = (
  cells: ReadonlyArray<string>,
  row: number,
  fault: string | null,
) => void;

/** Why reading stopped before the end of the text; null when it did not. */
export interface BrokenRecord {
  readonly row: number;
  readonly reason: string;
}

/**
 * The separator of a text: the one that occurs most often outside quotes in the first line that has
 * any. A text without any has a single column and is read with commas.
 */
export function detectDelimiter(text: string): Delimiter {
  const counts: Record<Delimiter, number> = { ",": 0, ";": 0, "\t": 0 };
  let quoted = false;
  for (let i = 0; i < text.length; i += 1) {
    const character = text[i];
    if (character === '"') quoted = !quoted;
    else if (!quoted && (character === "," || character === ";" || character === "\t"))
      counts[character] += 1;
    else if (
      !quoted &&
      (character === "\n" || character === "\r") &&
      counts[","] + counts[";"] + counts["\t"] > 0
    )
      break;
  }
  if (counts["\t"] >= counts[";"] && counts["\t"] >= counts[","] && counts["\t"] > 0) return "\t";
  return counts[";"] > counts[","] ? ";" : ",";
}

/**
 * Visits the records of a delimited text (RFC 4180; line ends CRLF, LF or CR) in order.
 * Lines without a quotation mark, nearly all in test tables, are split directly; that is what makes
 * large files quick. A quotation mark inside an unquoted cell is an ordinary character, so that 5"
 * needs no care.
 */
export function visitRecords(
  text: string,
  delimiter: Delimiter,
  visit: RecordVisitor,
): BrokenRecord | null {
  const end = text.includes("\n") ? "\n" : "\r";
  let nextQuote = text.indexOf('"');
  let row = 0;
  let start = 0;
  while (start < text.length) {
    row += 1;
    let stop = text.indexOf(end, start);
    if (stop === -1) stop = text.length;
    if (nextQuote !== -1 && nextQuote < start) nextQuote = text.indexOf('"', start);
    if (nextQuote !== -1 && nextQuote < stop) {
      const record = quotedRecord(text, start, delimiter, end);
      if (record === null) return { row, reason: "a quotation mark is opened and never closed" };
      visit(record.cells, row, record.fault);
      start = record.next;
      continue;
    }
    const withoutReturn =
      end === "\n" && stop > start && text.charCodeAt(stop - 1) === 13 ? stop - 1 : stop;
    visit(text.slice(start, withoutReturn).split(delimiter), row, null);
    start = stop + 1;
  }
  return null;
}

interface QuotedRecord {
  readonly cells: string[];
  readonly next: number;
  readonly fault: string | null;
}

/** One record that may hold quoted cells; null when a quoted cell never ends. */
function quotedRecord(
  text: string,
  start: number,
  delimiter: Delimiter,
  end: string,
): QuotedRecord | null {
  const cells: string[] = [];
  let fault: string | null = null;
  for (let at = start; ;) {
    let quoted: string | null = null;
    if (text[at] === '"') {
      let close = text.indexOf('"', at + 1);
      while (close !== -1 && text[close + 1] === '"') close = text.indexOf('"', close + 2);
      if (close === -1) return null;
      quoted = text.slice(at + 1, close).replaceAll('""', '"');
      at = close + 1;
    }
    const lineEnd = text.indexOf(end, at);
    const stop = lineEnd === -1 ? text.length : lineEnd;
    const separator = text.indexOf(delimiter, at);
    const last = separator === -1 || separator > stop;
    let rest = text.slice(at, last ? stop : separator);
    if (last && end === "\n" && rest.endsWith("\r")) rest = rest.slice(0, -1);
    if (quoted !== null && rest.trim() !== "")
      fault = "a quoted cell goes on after its closing quotation mark";
    cells.push(quoted === null ? rest : quoted + rest.trimEnd());
    if (last) return { cells, next: stop + 1, fault };
    at = separator + 1;
  }
}

/**
 * Lines of a text, never fewer than its records: those that end within quotation marks count too.
 */
export function countLines(text: string): number {
  const end = text.includes("\n") ? "\n" : "\r";
  let count = 1;
  for (let at = text.indexOf(end); at !== -1; at = text.indexOf(end, at + 1)) count += 1;
  return count;
}

/** The first records of a text, for finding the header, the units row and the decimal sign. */
export function firstRecords(text: string, delimiter: Delimiter, count: number): string[][] {
  const records: string[][] = [];
  // Enough text for the records wanted, cut at a line end; a quoted newline costs one record at
  // most.
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
