import type { Column } from "../schema/column";
import { detectDelimiter, firstRecords, type Delimiter } from "./delimited-text";
import { knownNames } from "./schema-names";

/** Rows at the top of a file among which the column names are looked for. */
const SEARCHED = 30;

/**
 * The top of a text cut into records: by which separator, and which record holds the column names
 * (from 0; -1 for none).
 */
export interface HeaderFinding {
  readonly delimiter: Delimiter;
  readonly sample: ReadonlyArray<ReadonlyArray<string>>;
  readonly headerAt: number;
  /** The names; of a header in two rows (groups above, quantities below) both put together. */
  readonly header: ReadonlyArray<string>;
  /** Rows the header takes: 1 or 2. */
  readonly headerRows: 1 | 2;
}

/** The separator and the row that are stated instead of looked for. */
export interface StatedHeader {
  readonly delimiter?: Delimiter;
  /** Row of the column names, counted from 1. */
  readonly headerRow?: number;
}

/**
 * Finds the separator and the header of a text. Laboratories write titles above their tables: the
 * header is the row, among the first 30, in which most names of the schema stand; without any, the
 * first row that is not blank.
 */
export function findHeader(
  text: string,
  schema: ReadonlyArray<Column>,
  stated: StatedHeader,
): HeaderFinding {
  const likely = stated.delimiter ?? detectDelimiter(text);
  const others =
    stated.delimiter === undefined
      ? ([",", ";", "\t"] as const).filter((one) => one !== likely && text.includes(one))
      : [];
  let best: (HeaderFinding & { readonly known: number }) | null = null;
  for (const delimiter of [likely, ...others]) {
    const sample = firstRecords(text, delimiter, Math.max(200, stated.headerRow ?? 0));
    const found =
      stated.headerRow === undefined
        ? headerAmong(sample, schema)
        : statedHeader(sample, stated.headerRow, schema);
    if (best === null || found.known > best.known) best = { delimiter, sample, ...found };
    // With this many names the separator is beyond doubt.
    if (best.known >= 5) break;
  }
  return best ?? { delimiter: likely, sample: [], headerAt: -1, header: [], headerRows: 1 };
}

type Header = Pick<HeaderFinding, "headerAt" | "header" | "headerRows"> & {
  readonly known: number;
};

function statedHeader(
  sample: ReadonlyArray<ReadonlyArray<string>>,
  row: number,
  schema: ReadonlyArray<Column>,
): Header {
  const header = sample[row - 1] ?? [];
  return {
    headerAt: sample.length < row ? -1 : row - 1,
    header,
    headerRows: 1,
    known: knownNames(header, schema),
  };
}

/**
 * The row with most names of a schema; the first that is not blank when none has two. Two rows
 * together are a header when their cells joined ("bar" above, "diameter (mm)" below, merged cells
 * counting for all columns they span) give more names than any row alone.
 */
export function headerAmong(
  sample: ReadonlyArray<ReadonlyArray<string>>,
  schema: ReadonlyArray<Column>,
): Header {
  const first = sample.findIndex((cells) => cells.some((cell) => cell.trim() !== ""));
  let [headerAt, known] = [first, first === -1 ? 0 : knownNames(sample[first] ?? [], schema)];
  for (let i = first + 1; i < Math.min(SEARCHED, sample.length); i += 1) {
    const here = knownNames(sample[i] ?? [], schema);
    if (here >= 2 && here > known) [headerAt, known] = [i, here];
  }
  let best: Header = { headerAt, header: sample[headerAt] ?? [], headerRows: 1, known };
  for (let i = Math.max(0, first); i + 1 < Math.min(SEARCHED, sample.length); i += 1) {
    const header = joined(sample[i] ?? [], sample[i + 1] ?? [], schema);
    const both = header === null ? 0 : knownNames(header, schema);
    if (header !== null && both >= 4 && both > best.known)
      best = { headerAt: i, header, headerRows: 2, known: both };
  }
  return best;
}

/**
 * Names of two rows: the lower one where it is a name by itself, else both together; null where the
 * upper row cannot be one of groups.
 */
function joined(
  upper: ReadonlyArray<string>,
  lower: ReadonlyArray<string>,
  schema: ReadonlyArray<Column>,
): string[] | null {
  const words = upper.map((cell) => cell.trim());
  if (words.every((word) => word === "") || words.some((word) => /^[\d.,+-]+$/.test(word)))
    return null;
  let group = "";
  return Array.from({ length: Math.max(upper.length, lower.length) }, (_, k) => {
    const [above, below] = [words[k] ?? "", (lower[k] ?? "").trim()];
    if (above !== "") group = above;
    if (below === "") return above;
    return group === "" || knownNames([below], schema) === 1 ? below : `${group} ${below}`;
  });
}
