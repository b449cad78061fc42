/** Separators that are told apart from the header line. */
export type Delimiter = "," | ";" | "\t";

/**
 * One record: its cells as typed, its row as a spreadsheet counts it (from 1, blank lines included),
 * and what is wrong with its quotation marks (null when nothing is).
 */
export type RecordVisitor = (cells: ReadonlyArray<string>, row: number, fault: string | null) => void;

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

/** Visits the records of a whole text; see visitPieces. */
export function visitRecords(text: string, delimiter: Delimiter, visit: RecordVisitor): BrokenRecord | null {
  return visitPieces([text], text.includes("\n") ? "\n" : "\r", delimiter, visit);
}

/**
 * Visits the records of a delimited text (RFC 4180; line ends CRLF, LF or CR) in order, holding one piece of the text at a time.
 * Lines without a quotation mark, nearly all in test tables, are split directly; that is what makes large files quick.
 * A quotation mark inside an unquoted cell is an ordinary character, so that 5" needs no care.
 * @param end LF where the text has any (a CR before it is dropped), else CR
 */
export function visitPieces(pieces: Iterable<string>, end: "\n" | "\r", delimiter: Delimiter, visit: RecordVisitor): BrokenRecord | null {
  let waiting: string[] = [];
  let length = 0;
  let wanted = 0;
  let row = 0;
  let broken: BrokenRecord | null = null;
  const take = (last: boolean): void => {
    const text = waiting.length === 1 ? (waiting[0] ?? "") : waiting.join("");
    const taken = wholeRecords(text, end, delimiter, row, last, visit);
    row = taken.row;
    broken = taken.broken;
    const rest = text.slice(taken.next);
    waiting = rest === "" ? [] : [rest];
    length = rest.length;
    // A record longer than a piece is looked at again only when twice as much of it has come.
    wanted = taken.next === 0 ? 2 * length : 0;
  };
  for (const piece of pieces) {
    waiting.push(piece);
    length += piece.length;
    if (length > wanted) take(false);
  }
  if (waiting.length > 0) take(true);
  return broken;
}

interface Taken {
  /** Where the first record begins that was not visited. */
  readonly next: number;
  readonly row: number;
  readonly broken: BrokenRecord | null;
}

/** Visits the records that end within the text; the one that reaches its end only when no more follows. */
function wholeRecords(text: string, end: "\n" | "\r", delimiter: Delimiter, before: number, last: boolean, visit: RecordVisitor): Taken {
  let nextQuote = text.indexOf('"');
  let row = before;
  let start = 0;
  while (start < text.length) {
    let stop = text.indexOf(end, start);
    if (stop === -1) {
      if (!last) break;
      stop = text.length;
    }
    if (nextQuote !== -1 && nextQuote < start) nextQuote = text.indexOf('"', start);
    if (nextQuote !== -1 && nextQuote < stop) {
      const record = quotedRecord(text, start, delimiter, end);
      if (!last && (record === null || record.next > text.length)) break;
      row += 1;
      if (record === null) return { next: text.length, row, broken: { row, reason: "a quotation mark is opened and never closed" } };
      visit(record.cells, row, record.fault);
      start = record.next;
      continue;
    }
    row += 1;
    const next = stop + 1;
    if (end === "\n" && stop > start && text.charCodeAt(stop - 1) === 13) stop -= 1;
    visit(text.slice(start, stop).split(delimiter), row, null);
    start = next;
  }
  return { next: Math.min(start, text.length), row, broken: null };
}

interface QuotedRecord {
  readonly cells: string[];
  readonly next: number;
  readonly fault: string | null;
}

/** One record that may hold quoted cells; null when a quoted cell never ends. */
function quotedRecord(text: string, start: number, delimiter: Delimiter, end: string): QuotedRecord | null {
  const cells: string[] = [];
  let fault: string | null = null;
  for (let at = start; ; ) {
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
    if (quoted !== null && rest.trim() !== "") fault = "a quoted cell goes on after its closing quotation mark";
    cells.push(quoted === null ? rest : quoted + rest.trimEnd());
    if (last) return { cells, next: stop + 1, fault };
    at = separator + 1;
  }
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
